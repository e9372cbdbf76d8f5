import type { Aspect, GradeOf } from '../../findings/grades';

const FOUND: { [A in Aspect]: Record<GradeOf<A>, string> } = {
  coil: {
    bare: 'The condenser coil was clean.',
    filmed: 'The condenser coil had a film of dirt.',
    furred: 'Lint or grease lay on the condenser coil; air still came through.',
    matted: 'The condenser coil was matted: air came through in patches only.',
    packed: 'The condenser coil was packed shut: no air came through.',
  },
  condenser_fan: {
    sound: 'The condenser fan runs well.',
    worn: 'The condenser fan is worn.',
    failed: 'The condenser fan has failed.',
  },
  air_path: {
    open: 'Air reached the condenser freely.',
    narrowed: 'Something took part of the air from the condenser.',
    blocked: 'The condenser was cut off from its air.',
  },
  ice: {
    dry: 'No ice on the cold side.',
    even_frost: 'Even frost on the cold coil, as it should be between defrosts.',
    part_iced: 'Ice on part of the cold coil or in its pan.',
    bridged: 'Ice closed much of the cold coil.',
    block: 'Solid ice in the pan or through the cold coil.',
  },
  evaporator_coil: {
    clean: 'The cold coil was clean.',
    dusty: 'Dust lay on the cold coil.',
    clogged: 'The cold coil was partly clogged with dirt.',
    choked: 'The cold coil was choked with dirt.',
  },
  evaporator_fan: {
    sound: 'The fan in the box runs well.',
    worn: 'The fan in the box is worn.',
    failed: 'The fan in the box has failed.',
  },
  drain: {
    runs: 'The drain runs.',
    slow: 'The drain runs slowly.',
    blocked: 'The drain was blocked.',
    frozen: 'The drain was frozen.',
    broken: 'The drain, its pan or its heater is broken.',
  },
  gasket: {
    sound: 'The door gaskets seal.',
    worn: 'The door gaskets are worn.',
    failed: 'A door gasket does not seal.',
  },
  scale: {
    clean: 'The ice plate was free of scale.',
    filmed: 'A film of scale was on the ice plate.',
    crusted: 'Crusts of scale were on the ice plate.',
    caked: 'The ice plate was covered in scale.',
  },
  float: {
    sound: 'The float and the water inlet work well.',
    worn: 'The float or the water inlet is worn.',
    failed: 'The float or the water inlet has failed.',
  },
};

const PARTS: Record<Aspect, string> = {
  coil: 'Condenser coil',
  condenser_fan: 'Condenser fan',
  air_path: 'Air to the condenser',
  ice: 'Ice',
  evaporator_coil: 'Cold coil',
  evaporator_fan: 'Fan in the box',
  drain: 'Drain',
  gasket: 'Door gaskets',
  scale: 'Scale',
  float: 'Float and water inlet',
};

/** The report of a visit. */
export const REPORT_EN = {
  report: 'Service report',
  of: (kitchen: string, day: string) => `${kitchen}, ${day}`,
  cameFrom: (technician: string, shop: string, from: string, to: string) =>
    `${technician} of ${shop} was with you from ${from}${to ? ` to ${to}` : ''}.`,
  lookedAfter: (units: number) => (units === 1 ? 'One unit was looked after.' : `${units} units were looked after.`),
  allWell: 'Nothing was found that cannot wait for the next visit.',
  openJobs: (jobs: number) => (jobs === 1 ? 'One thing needs work; it stands below.' : `${jobs} things need work; they stand below.`),
  bands: 'Where two figures stand in brackets, the true one lies between them four times in five.',
  foodSaid: 'Food temperature was spoken of; see below.',
  found: FOUND,
  notLooked: (aspect: string, why: string) => `${aspect}: not looked at (${why}).`,
  aspect: PARTS,
  /** By the key of the kind of task. */
  task: {} as Record<string, string | undefined>,
  leftClean: 'It was left clean.',
  /** A sentence, begun small. */
  leftStill: (grade: string) => `After the work: ${grade}`,
  done: (tasks: string[]) => `Done: ${tasks.join(', ')}.`,
  notDone: (task: string, why: string) => `Not done: ${task}${why ? ` (${why})` : ''}.`,
  noReach: (why: string) => `We could not get to it${why ? `: ${why}` : ''}.`,
  gone: 'It is no longer there.',
  overAir: (before: string | null, after: string | null) =>
    before && after
      ? `The condenser ran ${before} warmer than the air that cools it, ${after} after cleaning: the less, the easier it works.`
      : before
        ? `The condenser ran ${before} warmer than the air that cools it.`
        : `After the work the condenser ran ${after} warmer than the air that cools it.`,
  costing: (figure: string) => `The dirt was costing about ${figure} of electricity in 30 days.`,
  costingLittle: (most: string) => `No loss by dirt was to be seen; at most ${most} of electricity in 30 days.`,
  next: (task: string, day: string) => `${task}: next ${day}`,
  every: (weeks: number) => (weeks === 1 ? 'every week' : `every ${weeks} weeks`),
  sooner: (from: number) => `, sooner than the ${from} weeks before, because of what was found.`,
  later: (from: number) => `, later than the ${from} weeks before, because it stays clean longer.`,
  asBefore: ', as before.',
  job: { now: 'Now: food is at risk', today: 'Today', week: 'Within the week', next_visit: 'With the next visit' },
  box: (box: string, who: string, when: string) => `The box stood at ${box}; ${who} was told at ${when}.`,
  boxCaution: 'Whether food is still fit to be served is for the kitchen and its health authority to decide.',
  parts: (parts: string[]) => `Parts used: ${parts.join(', ')}.`,
  signed: (who: string) => `Signed by ${who}.`,
  nobody: 'Nobody was there to sign.',
  headings: {
    units: 'What was found and done',
    work: 'Work to come',
    food: 'Food temperature',
    next: 'When we come next',
    before: 'Before',
    after: 'After',
  },
  page: { pdf: 'As a PDF', questions: (phone: string) => (phone ? `Questions? ${phone}` : 'Questions? Ring the shop.') },
  letter: {
    subject: (kitchen: string, day: string) => `Service report: ${kitchen}, ${day}`,
    text: (kitchen: string, day: string, address: string, until: string) =>
      `The report of our visit to ${kitchen} on ${day}, with pictures:\n${address}\n\nThe address works until ${until}. Whoever has it can read the report.`,
  },
  paperLetters: 'Some of it is written in letters that this paper does not have: they stand as [?]. The page behind your link shows them.',
  deadLink: {
    title: 'This link does not open',
    text: 'It is too old, was taken back, or was asked for too often from here. Wait a quarter of an hour, or ask the shop for a new one.',
  },
};

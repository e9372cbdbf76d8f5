/**
 * Who gets in where, to be read by a person. The rows are held against what the framework compiled: a page, a method of a
 * route or an action without a row fails, and so does a row whose entrance is gone.
 *   in   is let in, whoever's it is
 *   own  is let in to what is theirs; somebody else's does not open and does not change
 *   no   is kept out: a stranger is sent to sign in, the others are refused, and nothing changes
 * A customer with a link is a stranger: the link opens the one page of its visit and nothing else.
 */
export type Cell = 'in' | 'own' | 'no';
export type Row = readonly [owner: Cell, dispatcher: Cell, technician: Cell, stranger: Cell];

export const COLUMNS = ['owner', 'dispatcher', 'technician', 'stranger'] as const;
export type Column = (typeof COLUMNS)[number];

// prettier-ignore
export const PAGES: Record<string, Row> = {
  //                                   owner  dispatcher technician stranger
  '/':                                 ['in',  'in',     'in',     'no'],
  // Only while nobody is on file.
  '/set-up':                           ['no',  'no',     'no',     'no'],
  '/sign-in':                          ['in',  'in',     'in',     'in'],
  '/visit/[token]':                    ['own', 'own',    'own',    'own'],
  '/customers':                        ['in',  'in',     'in',     'no'],
  '/customers/[id]':                   ['in',  'in',     'in',     'no'],
  '/customers/[id]/edit':              ['in',  'in',     'no',     'no'],
  '/customers/new':                    ['in',  'in',     'no',     'no'],
  '/customers/import':                 ['in',  'in',     'no',     'no'],
  '/customers/import/[id]':            ['in',  'in',     'no',     'no'],
  '/customers/positions':              ['in',  'in',     'no',     'no'],
  '/first-day':                        ['in',  'in',     'no',     'no'],
  '/kitchens/[id]':                    ['in',  'in',     'in',     'no'],
  '/kitchens/[id]/edit':               ['in',  'in',     'no',     'no'],
  '/kitchens/new':                     ['in',  'in',     'no',     'no'],
  '/units/[id]':                       ['in',  'in',     'in',     'no'],
  '/units/[id]/edit':                  ['in',  'in',     'no',     'no'],
  '/units/new':                        ['in',  'in',     'no',     'no'],
  '/refrigerants':                     ['in',  'in',     'in',     'no'],
  '/rules':                            ['in',  'in',     'in',     'no'],
  '/rules/what-if':                    ['in',  'no',     'no',     'no'],
  '/due':                              ['in',  'in',     'no',     'no'],
  '/entries':                          ['in',  'in',     'no',     'no'],
  '/outbox':                           ['in',  'in',     'no',     'no'],
  '/owner':                            ['in',  'in',     'no',     'no'],
  '/owner/kitchens/[id]':              ['in',  'in',     'no',     'no'],
  '/visits/[id]':                      ['in',  'in',     'own',    'no'],
  '/week':                             ['in',  'in',     'no',     'no'],
  '/week/[id]':                        ['in',  'in',     'no',     'no'],
  '/week/book':                        ['in',  'in',     'no',     'no'],
  '/week/calendars':                   ['in',  'in',     'no',     'no'],
  '/week/plan/[id]':                   ['in',  'in',     'no',     'no'],
  '/week/squeeze':                     ['in',  'in',     'no',     'no'],
  '/week/travel':                      ['in',  'in',     'no',     'no'],
  '/people':                           ['in',  'no',     'no',     'no'],
  '/people/[id]':                      ['in',  'no',     'no',     'no'],
  '/people/new':                       ['in',  'no',     'no',     'no'],
  '/shop':                             ['in',  'no',     'no',     'no'],
  '/me':                               ['in',  'in',     'in',     'no'],
};

// prettier-ignore
export const ROUTES: Record<string, Row> = {
  //                                    owner  dispatcher technician stranger
  'GET /api/auth/[...nextauth]':        ['in',  'in',     'in',     'in'],
  'POST /api/auth/[...nextauth]':       ['in',  'in',     'in',     'in'],
  'GET /api/health':                    ['in',  'in',     'in',     'in'],
  'GET /api/alive':                     ['in',  'in',     'in',     'in'],
  // Opens to the monitor's token alone, whoever is signed in.
  'GET /api/metrics':                   ['no',  'no',     'no',     'no'],
  'GET /api/feeds/[token]':             ['own', 'own',    'own',    'own'],
  'GET /api/files':                     ['in',  'in',     'in',     'no'],
  'PUT /api/files':                     ['in',  'in',     'in',     'no'],
  'GET /api/files/[id]':                ['in',  'in',     'own',    'no'],
  'GET /api/labels':                    ['in',  'in',     'in',     'no'],
  'GET /api/plans/[id]':                ['in',  'in',     'no',     'no'],
  // Work that waits on somebody else's tablet may be handed in by the office, and by nobody else.
  'POST /api/sync':                     ['in',  'in',     'own',    'no'],
  'GET /api/sync/round':                ['own', 'own',    'own',    'no'],
  'GET /customers/export':              ['in',  'in',     'no',     'no'],
  'GET /customers/template':            ['in',  'in',     'no',     'no'],
  'GET /customers/import/[id]/problems': ['in', 'in',     'no',     'no'],
  'GET /customers/import/[id]/progress': ['in', 'in',     'no',     'no'],
  'GET /week/travel/template':          ['in',  'in',     'no',     'no'],
  // The same for everybody, and without data.
  'GET /round':                         ['in',  'in',     'in',     'in'],
  'GET /round-app/[file]':              ['in',  'in',     'in',     'in'],
  'GET /serwist/[path]':                ['in',  'in',     'in',     'in'],
  'GET /favicon.ico':                   ['in',  'in',     'in',     'in'],
  'GET /icon.svg':                      ['in',  'in',     'in',     'in'],
  'GET /manifest.webmanifest':          ['in',  'in',     'in',     'in'],
};

// prettier-ignore
export const ACTIONS: Record<string, Row> = {
  //                                   owner  dispatcher technician stranger
  'set-up/actions setUp':              ['in',  'in',     'in',     'in'],
  'visit/[token]/actions answer':      ['own', 'own',    'own',    'own'],
  'customers/actions addCustomer':     ['in',  'in',     'no',     'no'],
  'customers/actions saveCustomer':    ['in',  'in',     'no',     'no'],
  'customers/actions takeCustomerOff': ['in',  'in',     'no',     'no'],
  'customers/actions putCustomerBack': ['in',  'in',     'no',     'no'],
  'customers/positions/actions placeKitchen': ['in', 'in', 'no',  'no'],
  'customers/import/actions checkFleet': ['in', 'in',    'no',     'no'],
  'customers/import/actions chooseSheet': ['in', 'in',   'no',     'no'],
  'customers/import/actions takeBackFleet': ['in', 'in', 'no',     'no'],
  'customers/import/actions runFleet': ['in',  'in',     'no',     'no'],
  'entries/actions settle':            ['in',  'in',     'no',     'no'],
  'outbox/actions decide':             ['in',  'in',     'no',     'no'],
  'kitchens/actions addKitchen':       ['in',  'in',     'no',     'no'],
  'kitchens/actions saveKitchen':      ['in',  'in',     'no',     'no'],
  'kitchens/actions takeKitchenOff':   ['in',  'in',     'no',     'no'],
  'kitchens/actions putKitchenBack':   ['in',  'in',     'no',     'no'],
  'kitchens/actions addClosedDays':    ['in',  'in',     'no',     'no'],
  'kitchens/actions removeClosedDays': ['in',  'in',     'no',     'no'],
  'me/actions saveMyUnits':            ['in',  'in',     'in',     'no'],
  'me/actions changeMyPassword':       ['in',  'in',     'in',     'no'],
  'me/actions endMySession':           ['own', 'own',    'own',    'no'],
  'people/actions addPerson':          ['in',  'no',     'no',     'no'],
  'people/actions savePerson':         ['in',  'no',     'no',     'no'],
  'people/actions switchPerson':       ['in',  'no',     'no',     'no'],
  'people/actions givePassword':       ['in',  'no',     'no',     'no'],
  'people/actions endSessions':        ['in',  'no',     'no',     'no'],
  'people/actions addDaysOff':         ['in',  'no',     'no',     'no'],
  'people/actions removeDaysOff':      ['in',  'no',     'no',     'no'],
  'rules/actions askPolicy':           ['in',  'no',     'no',     'no'],
  'shop/actions saveShop':             ['in',  'no',     'no',     'no'],
  'shop/actions saveCosts':            ['in',  'no',     'no',     'no'],
  'shop/actions addKind':              ['in',  'no',     'no',     'no'],
  'shop/actions saveKind':             ['in',  'no',     'no',     'no'],
  'units/actions addUnit':             ['in',  'in',     'no',     'no'],
  'units/actions saveUnit':            ['in',  'in',     'no',     'no'],
  'units/actions takeUnitOff':         ['in',  'in',     'no',     'no'],
  'units/actions putUnitBack':         ['in',  'in',     'no',     'no'],
  'units/actions addUnitTask':         ['in',  'in',     'no',     'no'],
  'units/actions saveRule':            ['in',  'in',     'no',     'no'],
  'units/actions setLock':             ['in',  'in',     'no',     'no'],
  'units/actions takeTaskOff':         ['in',  'in',     'no',     'no'],
  'units/actions review':              ['in',  'no',     'no',     'no'],
  'units/actions settleJob':           ['in',  'in',     'no',     'no'],
  'visits/[id]/actions reviseAgain':   ['in',  'in',     'no',     'no'],
  'week/actions book':                 ['in',  'in',     'no',     'no'],
  'week/actions move':                 ['in',  'in',     'no',     'no'],
  'week/actions give':                 ['in',  'in',     'no',     'no'],
  'week/actions cancel':               ['in',  'in',     'no',     'no'],
  'week/calendars/actions newAddress': ['in',  'in',     'no',     'no'],
  'week/calendars/actions endAddress': ['in',  'in',     'no',     'no'],
  'week/plan/actions propose':         ['in',  'in',     'no',     'no'],
  'week/plan/actions stopSearch':      ['in',  'in',     'no',     'no'],
  'week/plan/actions accept':          ['in',  'in',     'no',     'no'],
  'week/plan/actions undo':            ['in',  'in',     'no',     'no'],
  'week/squeeze/actions look':         ['in',  'in',     'no',     'no'],
  'week/squeeze/actions take':         ['in',  'in',     'no',     'no'],
  'week/travel/actions check':         ['in',  'in',     'no',     'no'],
  'week/travel/actions replace':       ['in',  'in',     'no',     'no'],
  'week/travel/actions forget':        ['in',  'in',     'no',     'no'],
};

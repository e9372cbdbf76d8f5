import { DEFAULT_HYPER } from '../../../lib/core/fouling';
import { GRADES, type CoilGrade, type GradeOf } from '../../../lib/core/findings/grades';
import type { RandomStream } from '../../../lib/core/numerics/random';
import type { Truth } from './truth';

/** A unit on its way through the months. Deposits are falls of ln K. */
export class UnitState {
  deposit: number;
  stuck = 0;
  fanDead = false;
  gasketWorn = 0;
  private drainFailsOn: number;

  constructor(
    private day: number,
    private readonly lastDay: number,
    readonly truth: Truth,
    private readonly random: RandomStream,
  ) {
    this.deposit = truth.ratePerDay * random.between(0, 60);
    this.drainFailsOn = day + this.daysOfDrain();
    this.gasketWorn = random.between(0, 0.6);
  }

  /** Lets the days pass: grease comes by a gamma process whose mean is the unit's rate. */
  advance(day: number): void {
    const days = day - this.day;
    if (days <= 0) return;
    const { diffusion } = DEFAULT_HYPER;
    this.deposit += this.random.gamma((this.truth.ratePerDay * days) / diffusion, diffusion);
    if (this.truth.stuckAtEnd > 0) {
      const share = Math.min(1, Math.max(0, 1 - (this.lastDay - day) / 300));
      this.stuck = this.truth.stuckAtEnd * share;
    }
    if (this.truth.fanDiesDay !== null && day >= this.truth.fanDiesDay) this.fanDead = true;
    this.gasketWorn += days * 0.0007;
    this.day = day;
  }

  /** Total fall of ln K; a dead fan leaves about 45 % of the air side (natural draught and the neighbour's air). */
  get lnKFall(): number {
    return this.deposit + this.stuck + (this.fanDead ? 0.8 : 0);
  }

  coilGrade(): CoilGrade {
    const seen = this.deposit + this.stuck + this.random.normal(0, this.truth.eyeSd);
    const at = DEFAULT_HYPER.grades.thresholds.filter((t) => seen > t).length;
    return (GRADES.coil[at] as (typeof GRADES.coil)[number]).grade;
  }

  clean(): void {
    const restored = Math.min(1, Math.max(0, this.random.normal(this.truth.restore, DEFAULT_HYPER.restore.cleaningSd)));
    this.deposit *= 1 - restored;
  }

  /** Days since the drain stopped; negative while it runs. */
  private get drainDown(): number {
    return this.day - this.drainFailsOn;
  }

  private daysOfDrain(): number {
    return this.truth.drainIsSteady ? this.truth.drainDays : this.random.exponential(this.truth.drainDays);
  }

  drainGrade(frozen: boolean): GradeOf<'drain'> {
    if (this.drainDown < 0) return this.random.chance(0.05) ? 'slow' : 'runs';
    if (this.drainDown < 10) return 'slow';
    return frozen ? 'frozen' : 'blocked';
  }

  /** Standing water becomes pan ice, then coil ice. */
  iceGrade(freezer: boolean): GradeOf<'ice'> {
    const down = this.drainDown;
    if (down > 60) return 'block';
    if (down > 35) return 'bridged';
    if (down > 15) return 'part_iced';
    return freezer || this.random.chance(0.3) ? 'even_frost' : 'dry';
  }

  clearDrain(): void {
    if (this.drainDown >= 0) this.drainFailsOn = this.day + this.daysOfDrain();
  }

  gasketGrade(): 'sound' | 'worn' | 'failed' {
    return this.gasketWorn > 0.75 ? 'failed' : this.gasketWorn > 0.45 ? 'worn' : 'sound';
  }
}

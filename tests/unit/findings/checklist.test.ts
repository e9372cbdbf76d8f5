import { describe, expect, it } from 'vitest';
import { UNIT_KINDS } from '@/lib/core/equipment/build';
import { checklistFor } from '@/lib/core/findings/checklist';

describe('what to look at', () => {
  it.each(UNIT_KINDS)('%s: what is its own first, then what every unit has', (kind) => {
    const list = checklistFor(kind);
    expect(list.at(-1)).toBe('Photo before and after');
    expect(list.length).toBeGreaterThan(10);
    expect(new Set(list).size).toBe(list.length);
    expect(list.every((line) => line.length > 2)).toBe(true);
  });

  it('a freezer room adds its relief vent to what a cooler has, a rail its drain, ice its scale', () => {
    expect(checklistFor('walk_in_freezer')).toContain('Pressure-relief vent');
    expect(checklistFor('walk_in_freezer')).toEqual(expect.arrayContaining(checklistFor('walk_in_cooler') as string[]));
    expect(checklistFor('walk_in_cooler')).not.toContain('Pressure-relief vent');
    expect(checklistFor('prep_table')).toContain('Rail drain');
    expect(checklistFor('ice_machine')).toContain('Scale');
    expect(checklistFor('reach_in')).toContain('Pan and hose');
    expect(checklistFor('remote_condensing_unit')).toContain('Disconnect within sight');
  });
});

import type { LocalDate } from '@/lib/core/calendar';

export type DueTaskLine = {
  id: string; unitId: string; unit: string; placement: string; kind: string; minutes: number; rule: string; locked: boolean; dueOn: LocalDate; lastDoneOn: LocalDate | null; refrigerant: string; roofWork: boolean;
  visitId: string | null; visitStartsAt: number | null; technician: string | null;
}; // prettier-ignore
export type DueKitchenLine = {
  id: string;
  name: string;
  customer: string;
  address: string;
  timeZone: string;
  today: LocalDate;
  tasks: DueTaskLine[];
};

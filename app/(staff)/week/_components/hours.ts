export { hoursWords } from '../../../_ui/hours-words';

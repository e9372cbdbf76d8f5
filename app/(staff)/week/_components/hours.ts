export { hoursWords } from '@/app/_ui/words/hours-words';

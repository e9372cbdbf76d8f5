export { gradeWords } from '@/lib/core/findings/grades';

export { NotForThisSignIn as default } from '@/app/_ui/feedback/dead-ends';

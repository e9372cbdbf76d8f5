export { NothingOnFile as default } from '@/app/_ui/feedback/dead-ends';

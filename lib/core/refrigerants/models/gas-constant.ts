/** CODATA 2018, J/(mol·K): one gas constant for every component of a mixture. Pure equations keep their own. */
export const MIXTURE_R = 8.314462618;

// Apart, and fetched at the first tap: the first load is for looking.
export { explainPlace as explain } from '@halflight/engine';

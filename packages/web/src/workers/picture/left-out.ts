export { leftOutOf } from '@halflight/engine';

/** Only a watched file asks for this: it is loaded with the first save. */
export { cameToEnd } from '@halflight/files';

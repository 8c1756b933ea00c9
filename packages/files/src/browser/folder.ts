/** Where the imaging library lies, relative to the app's root. Named after the version, so it can be kept for ever. */
export const VIPS_FOLDER = 'vips-0.0.19/';

/** Said once in every report and help: readings never judge. */
export const ADVICE = 'Readings are advice; the eye decides.';

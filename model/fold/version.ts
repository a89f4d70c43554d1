/**
 * Version of the fold. It changes whenever the same tape may give another state or the saved form differs;
 * a checkpoint of another version is never used.
 */
export const MODEL_VERSION = '28';

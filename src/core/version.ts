declare const SETSQUARE_VERSION: string | undefined;

/** Version of the package, set when it is bundled; run from source it says so. */
export const toolVersion: string = typeof SETSQUARE_VERSION === 'string' ? SETSQUARE_VERSION : 'source';

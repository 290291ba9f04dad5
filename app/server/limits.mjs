// What is too much for one entry, for the gate that turns it away by its length and for the routes that count its bytes.

/** In bytes; above the largest entry there is. */
export const LARGEST_BODY = 1_000_000;

export const TOO_LARGE = 'This is too much for one entry: enter it in parts.';

// What a figure holds before a run has written it.

/**
 * No whole number, so that the engine keeps the field as a double from the start. A field that first holds a whole number is made
 * anew when it first meets a fraction, and all code compiled for the object with it; with NaN a figure that was forgotten shows too.
 */
export const unwritten = Number.NaN

/** Less than this is a rounding of cents. */
export const hair = 0.005

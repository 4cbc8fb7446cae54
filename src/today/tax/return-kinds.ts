// Whose return tax is paid for.

/** The federal one, that of the household's state, or that of a local office, where local tax is not paid with the state's. */
export const returnKinds = ['federal', 'state', 'local'] as const
export type ReturnKind = (typeof returnKinds)[number]

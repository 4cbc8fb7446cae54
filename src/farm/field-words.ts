// The words a plan's schema says of its fields: forms, the JSON Schema and the list of differences are written with them.

/** What a field names by its short name: a form offers those that the plan has. */
export type Named =
  | 'adult'
  | 'child'
  | 'anyone'
  | 'account'
  | 'market'
  | 'enterprise'
  | 'herd'
  | 'enterprise or herd'
  | 'facility'
  | 'worker'

export interface FieldWords {
  unit?:
    | 'dollars'
    | 'dollars a month'
    | 'dollars a year'
    | 'share'
    | 'rate a year'
    | 'months'
    | 'years'
    | 'hours'
  /** The whole unit for those who write a plan without its forms, where the title says to people what an amount is per or when it is due. */
  told?: string
  names?: Named
  /** For one figure or twelve: what the one figure means. */
  months?: 'year’s total' | 'each month'
  /** Heading under which a form puts it, with others of the same. */
  group?: string
  /** Usually left as it is: a form folds it, or its heading where that holds of all under it, while nothing is entered. */
  seldom?: true
  /** The choices in words. */
  labels?: Readonly<Record<string, string>>
  /** What an amount below zero is, where the title says what one above it is: a form asks which of the two, and takes no minus. */
  belowZero?: string
  /** Kept by the form itself beside what is typed: no field draws it. */
  aside?: true
  /** It has a page of its own, at `/runway/plan/PAGE/ID`, and is on no other form. */
  page?: string
}

declare module 'zod' {
  interface GlobalMeta extends FieldWords {}
}

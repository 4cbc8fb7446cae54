// What a form of the plan refuses or asks about, at its field.
import type { Path } from './form/shape.ts'

/** Said at the yes that a doubt asks for. */
export const sayYes = 'If it is so all the same, say yes below the form'

/** What a plan can hold and a life cannot, or hardly. */
export interface Doubt {
  path: Path
  message: string
  /** It may be so: the form asks for a yes, in place of refusing. */
  asks?: true
}

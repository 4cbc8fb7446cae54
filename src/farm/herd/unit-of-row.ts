// What one unit of a row of the course is called: of an enterprise its own word, of a herd its grown female.
import type { Farm } from '../farm-document.ts'
import { speciesWords } from './species-words.ts'

export const unitOfRow = ({ enterprises, herds }: Farm, row: number): string =>
  enterprises[row]?.unit ?? speciesWords[herds[row - enterprises.length]!.kind].female[0]

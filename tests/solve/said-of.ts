// All that an answer says, in one text.
import type { Said } from '#solve/question.ts'

export const saidOf = ({ sentence, more }: Said): string => [sentence, ...more].join(' ')

// Why a place is proposed, in a few words: a rule, or by what earlier transactions of the payee were told apart.
import type { Clue, Habit } from '#ledger/statements/habits.ts'
import type { Suggestion } from '#ledger/statements/proposals.ts'

export const whyWords = ({ proposal, habit }: Suggestion): string => {
  if (proposal.how === 'starts') return 'By a rule: the payee begins so'
  if (proposal.how === 'contains') return 'By a rule: the payee has these words'
  if (proposal.how === 'similar') return 'Like a payee you sorted before; please check'
  if (proposal.how === 'elsewhere') return 'As this payee on another account; please check'
  if (proposal.how === 'back') return 'Money back, by what was paid before; please check'
  return habit ? habitWords(habit) : 'As you sorted this payee before'
}

const habitWords = (habit: Habit): string => {
  if (habit.isVaried) return `${clueWords[habit.clue]}: ${habit.times} of ${habit.of} times; please check`
  const before = habit.times === 1 ? 'As last time' : `As ${habit.times} times before`
  return habit.isMuch ? `${before}, but far more than ever; please check` : before
}

/** Of a payee whose transactions went to several places. */
const clueWords: Record<Clue, string> = {
  always: 'As before',
  'same amount': 'By the same amount',
  words: 'By the number in its text',
  amount: 'By the amount',
  'amount and weekday': 'By amount and day of the week',
  weekday: 'By the day of the week',
  day: 'By the day of the month',
  mostly: 'Went there most',
}

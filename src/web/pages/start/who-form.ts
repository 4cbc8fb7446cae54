// The form of who lives here and where, at the first run and under Settings.
import { z } from 'zod'
import { stateCodes } from '#rules/places/state-names.ts'
import {
  checkbox,
  dayField,
  formIdField,
  moneyZeroOrMore,
  optionalText,
  percentOrNull,
  quantityOrNull,
  requiredText,
} from '#web/forms/fields.ts'
import type { TypedForm } from '#web/forms/form.ts'

export const person = z.object({ name: requiredText('Enter the name', 80), born: dayField() })
export const child = person.extend({ student: checkbox() })
export const relative = person.extend({
  planToAge: quantityOrNull().refine(
    (age) => age === null || (Number.isInteger(age) && age >= 19 && age <= 119),
    { error: 'Enter an age from 19 to 119, like 92' },
  ),
  ownMoney: moneyZeroOrMore(),
})
/** The most hours a week of a whole week. */
const adult = person.extend({
  hours: quantityOrNull().refine((hours) => hours === null || (hours >= 0 && hours <= 168), {
    error: 'Enter hours a week from 0 to 168, like 38',
  }),
})

export const whoForm = z.object({
  formId: formIdField(),
  farmName: requiredText('Name the farm', 80),
  state: z.enum(['', ...stateCodes], { error: 'Choose your state' }).optional(),
  county: optionalText(80),
  localRate: percentOrNull()
    .refine((rate) => rate === null || (rate >= 0 && rate <= 0.2), {
      error: 'Enter a percentage from 0 to 20, like 1.2',
    })
    .optional(),
  people: z.array(adult).min(1, { error: 'Enter at least one of you' }).max(2),
  children: z.array(child).max(12).default([]),
  relatives: z.array(relative).max(4).default([]),
  sure: z.string().optional(),
})

/** Rows in which nothing was typed are left out, except the first adult. */
export function withoutBlankPeople(typed: TypedForm): TypedForm {
  const filled = (list: string, keepFirst: boolean) => {
    const rows = Array.isArray(typed.nested[list]) ? (typed.nested[list] as Record<string, string>[]) : []
    return rows.filter(
      (row, index) =>
        (keepFirst && index === 0) ||
        ['name', 'born', 'planToAge', 'ownMoney'].some((field) => (row?.[field] ?? '').trim() !== ''),
    )
  }
  return {
    ...typed,
    nested: {
      ...typed.nested,
      people: filled('people', true),
      children: filled('children', false),
      relatives: filled('relatives', false),
    },
  }
}

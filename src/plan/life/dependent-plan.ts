// A child or another dependent of the household, in the plan.
import { z } from 'zod'
import { birthField, dollars, idField, monthField, nameField, wholeNumber } from '../fields.ts'

/** To which age the plan goes on with an adult relative where it names none, as with its adults. */
export const relativeToAge = 95

export const dependentSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Name' }),
  born: birthField().meta({
    title: 'Born',
    description:
      'Below 18, Social Security counts a child of both: benefits for it and its parent after a claim or a death',
  }),
  relation: z
    .enum(['child', 'relative'])
    .default('child')
    .meta({
      title: 'Who this is',
      labels: { child: 'A child of ours', relative: 'An adult relative, like a parent' },
      description:
        'A relative as far as you may claim her or him as a dependent (26 USC 152(d)): you pay more than half of the support, and her or his own income that is taxed stays under a yearly limit of little more than $5,000; Social Security that is not taxed does not count in it. Ask your tax preparer. Counts in the size of the household and for the credit for other dependents, never as a child',
    }),
  untilAge: wholeNumber(1, 30).default(19).meta({
    title: 'At home until age',
    unit: 'years',
    description:
      'Of a child. Until 24 for a full-time student whom you support, also one who lives at the college',
  }),
  student: z.boolean().default(false).meta({
    title: 'Full-time student from 19 on',
    description: 'Then a child for the earned income credit until 24, too',
  }),
  mother: idField().optional().meta({
    title: 'Mother, of a child still to be born',
    names: 'adult',
    description: 'Medicaid covers further in pregnancy and a year after',
  }),
  leaves: monthField().optional().meta({
    title: 'Last month at home',
    description: 'Where one leaves before that age. Empty: up to it',
  }),
  planToAge: wholeNumber(19, 119)
    .optional()
    .meta({
      title: 'Of an adult relative: plan to age',
      unit: 'years',
      description: `Empty: ${relativeToAge}. From 65 on Medicare like you, if you are; a premium kept back from a benefit of her or his own is none of yours`,
    }),
  ownMoney: dollars().default(0).meta({
    title: 'Own benefits for the household, a month',
    unit: 'dollars a month',
    description:
      'What of her or his own Social Security or pension goes to your costs, in today’s prices, after a Medicare premium kept back; until she or he leaves the plan. Not your income: no tax, no coverage limit of yours counts it',
  }),
})

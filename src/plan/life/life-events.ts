// What changes who lives in the household: entered as such, with its month; status, costs, coverage and benefits follow (`lived.ts`).
import { z } from 'zod'
import { birthField, dollars, idField, monthField, nameField, share, wholeNumber } from '../fields.ts'

const lessPremium = () =>
  dollars().default(0).meta({
    title: 'Premiums fall by',
    unit: 'dollars a month',
    description:
      'Of insurance outside the marketplace, in today’s prices. Marketplace and Medicare follow by themselves',
  })

const deathSchema = z
  .object({
    kind: z.literal('death'),
    person: idField().meta({ title: 'Who', names: 'adult' }),
    month: monthField().meta({ title: 'Month of the death' }),
    cost: dollars().default(0).meta({
      title: 'Costs of it',
      told: 'dollars once',
      unit: 'dollars',
      description: 'Paid in that month',
    }),
    pensionShare: share().optional().meta({
      title: 'Of that person’s pension, paid on to the other',
      unit: 'share',
      description: 'As the pension says: often half. Empty: as entered with the pension, or nothing',
    }),
    lessPremium: lessPremium(),
  })
  .meta({
    title: 'A death',
    description:
      'Pay and work of that person end, living costs and the farm go on as for one alone, and survivors’ benefits are paid',
  })

const separationSchema = z
  .object({
    kind: z.literal('separation'),
    person: idField().meta({ title: 'Who leaves', names: 'adult' }),
    month: monthField().meta({ title: 'First month apart' }),
    takes: dollars().default(0).meta({
      title: 'Paid out to whoever leaves',
      told: 'dollars once',
      unit: 'dollars',
      description: 'In that month, out of savings. Accounts of that person’s own leave as well',
    }),
    lessPremium: lessPremium(),
  })
  .meta({
    title: 'A separation',
    description:
      'The year is filed as no longer married (26 USC 7703); what one leaves with is for you to say',
  })

const birthSchema = z
  .object({
    kind: z.literal('birth'),
    name: nameField().meta({ title: 'Name' }),
    born: birthField().meta({ title: 'Day', description: 'Expected, or as it was' }),
    perMonth: dollars().default(0).meta({
      title: 'Living costs rise by',
      unit: 'dollars a month',
      description: 'From that month, in today’s prices',
    }),
    mother: idField().optional().meta({
      title: 'Mother',
      names: 'adult',
      description: 'Medicaid covers further in pregnancy and a year after',
    }),
    covered: z.boolean().default(true).meta({
      title: 'Joins the marketplace plan',
      description: 'Where the plan has one; in some states a children’s program covers the child',
    }),
    untilAge: wholeNumber(1, 30).default(19).meta({ title: 'At home until age', unit: 'years' }),
  })
  .meta({ title: 'A birth', description: 'An adoption is entered the same way' })

const leavingSchema = z
  .object({
    kind: z.literal('leaving'),
    child: idField().meta({ title: 'Who', names: 'child' }),
    month: monthField().meta({ title: 'Last month at home' }),
    lessPerMonth: dollars().default(0).meta({
      title: 'Living costs fall by',
      unit: 'dollars a month',
      description: 'From the month after, in today’s prices',
    }),
  })
  .meta({
    title: 'A child leaves home',
    description: 'Or an adult relative, who leaves or dies. Coverage, credits and benefits end with it',
  })

export const lifeEventSchema = z
  .discriminatedUnion('kind', [deathSchema, separationSchema, birthSchema, leavingSchema])
  .meta({ title: 'What happens' })

export type LifeEvent = z.infer<typeof lifeEventSchema>

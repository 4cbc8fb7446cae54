// What costs or brings money once, in a month of its own.
import { z } from 'zod'
import { idField, monthField, nameField, signedDollars } from '../fields.ts'

export const oneOffSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'One-off' }),
  month: monthField().meta({ title: 'Month' }),
  cost: signedDollars().meta({
    title: 'Cost',
    told: 'dollars once',
    belowZero: 'Money in',
    unit: 'dollars',
    description:
      'Money in: a gift, an inheritance of money, what somebody pays back. No income tax is counted on it. Accounts that were inherited are entered under Savings',
  }),
  todaysPrices: z.boolean().default(true).meta({ title: 'In today’s prices' }),
})

// A child or another dependent of the household, in the plan.
import { z } from 'zod'
import { birthField, idField, monthField, nameField, wholeNumber } from '../fields.ts'

export const dependentSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Name' }),
  born: birthField().meta({
    title: 'Born',
    description:
      'Below 18, Social Security counts a child of both: benefits for it and its parent after a claim or a death',
  }),
  untilAge: wholeNumber(1, 30).default(19).meta({
    title: 'At home until age',
    unit: 'years',
    description: 'Until 24 for a full-time student whom you support, also one who lives at the college',
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
})

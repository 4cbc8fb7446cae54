// Schedule SE of one person line by line, from the same figures that the return was worked with.
import type { LawYear } from '../law-year.ts'
import type { PersonLines } from '../return/business-lines.ts'
import { atRate } from '../rounding.ts'

/** Whole cents. */
export interface ScheduleSeLine {
  line: string
  says: string
  cents: number
}

/** Lines of Schedule SE (Form 1040); empty for somebody without a business of the year. 5a and 5b, for church employees, are left out. */
export const scheduleSe = (law: LawYear, person: PersonLines): ScheduleSeLine[] => {
  if (person.farmProfit === 0 && person.otherProfit === 0 && person.tax === 0) return []
  const { farmProfit, otherProfit, farmOptional, nonfarmOptional, netEarnings } = person
  const ownFarm = farmOptional > 0 ? 0 : farmProfit
  const ownOther = nonfarmOptional > 0 ? 0 : otherProfit
  const net = ownFarm + ownOther
  const counted = net > 0 ? atRate(net, law.selfEmploymentFactor) : net
  const reached = counted + farmOptional + nonfarmOptional
  const first: ScheduleSeLine[] = [
    {
      line: '1a',
      says:
        farmOptional > 0
          ? 'Farm profit, left out by the optional method'
          : 'Farm profit or loss, Schedule F line 34',
      cents: ownFarm,
    },
    {
      line: '2',
      says:
        nonfarmOptional > 0
          ? 'Other profit, left out by the optional method'
          : 'Profit or loss of other businesses, Schedule C line 31',
      cents: ownOther,
    },
    { line: '3', says: 'Lines 1a and 2 together', cents: net },
    { line: '4a', says: `${percentOf(law.selfEmploymentFactor)} of line 3; a loss as it is`, cents: counted },
    { line: '4b', says: 'By the optional methods, lines 15 and 17', cents: farmOptional + nonfarmOptional },
    { line: '4c', says: 'Lines 4a and 4b together', cents: reached },
  ]
  if (netEarnings === 0)
    return [
      ...first,
      {
        line: '12',
        says: `Line 4c is under $${law.selfEmploymentMinimum}: no self-employment tax`,
        cents: 0,
      },
    ]
  return [...first, ...taxLines(law, person), ...optionalLines(law, person)]
}

/** Lines 6 to 13. */
const taxLines = (law: LawYear, person: PersonLines): ScheduleSeLine[] => {
  const { netEarnings, wages } = person
  const base = law.wageBase * 100
  return [
    { line: '6', says: 'Net earnings from self-employment', cents: netEarnings },
    { line: '7', says: 'Most of earnings that Social Security taxes in the year', cents: base },
    { line: '8d', says: 'Wages it has taxed', cents: wages },
    { line: '9', says: 'Line 7 less line 8d', cents: Math.max(0, base - wages) },
    {
      line: '10',
      says: `${percentOf(law.selfEmploymentSocialSecurityRate)} of line 6 or 9, whichever is less`,
      cents: person.socialSecurityPart,
    },
    {
      line: '11',
      says: `${percentOf(law.selfEmploymentMedicareRate)} of line 6`,
      cents: person.medicarePart,
    },
    { line: '12', says: 'Self-employment tax, to Schedule 2 line 4', cents: person.tax },
    { line: '13', says: 'Half of line 12, to Schedule 1 line 15', cents: person.half },
  ]
}

/** Part II, where somebody reports by an optional method. */
const optionalLines = (law: LawYear, { farmOptional, nonfarmOptional }: PersonLines): ScheduleSeLine[] => {
  if (farmOptional === 0 && nonfarmOptional === 0) return []
  const most = law.optionalMethodMax * 100
  return [
    { line: '14', says: 'Most that the optional methods report', cents: most },
    { line: '15', says: 'Farm optional method', cents: farmOptional },
    { line: '16', says: 'Line 14 less line 15', cents: most - farmOptional },
    { line: '17', says: 'Nonfarm optional method', cents: nonfarmOptional },
  ]
}

const percentOf = (share: number): string => `${Number((share * 100).toFixed(4))} percent`

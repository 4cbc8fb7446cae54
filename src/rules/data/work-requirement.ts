// What Medicaid asks of adults of the expansion from 2027: hours of work or an income, and who is left out.
import type { Dated } from '../dated.ts'

const source =
  'P.L. 119-21 sec. 71119; 42 CFR 435.550 to 435.563 (91 FR 33348, June 3, 2026), second hand from an extract of the rule with its section numbers'
const note =
  'Nebraska began on May 1, 2026, Arkansas and Montana on July 1, 2026, Iowa on December 1, 2026; a state may be excused to the end of 2028. Enrolled people meet it at their first renewal after the start.'

export const workHoursMonthly: Dated<number> = {
  rule: 'hours of work, service, training or study a month that meet Medicaid’s work requirement',
  unit: 'hours a month',
  source,
  note: `Work for oneself and unpaid work on the family’s farm count. ${note}`,
  obtained: 'secondHand',
  values: { 2027: 80 },
  after: { by: 'statute' },
}

export const workIncomeMonthly: Dated<number> = {
  rule: 'household income a month that meets Medicaid’s work requirement',
  unit: 'dollars a month, the federal minimum wage for 80 hours',
  source,
  note,
  obtained: 'secondHand',
  values: { 2027: 580 },
  after: { by: 'statute' },
}

export const workAges: Dated<{ readonly from: number; readonly to: number; readonly childTo: number }> = {
  rule: 'ages of adults that Medicaid’s work requirement asks, and of a child whose parents it does not ask',
  unit: 'years',
  source,
  note: 'Pregnancy, disability, frailty, service rated as total disability and some other grounds leave a person out too.',
  obtained: 'secondHand',
  values: { 2027: { from: 19, to: 64, childTo: 13 } },
  after: { by: 'statute' },
}

/** Beside the limits of `places/coverage-limits.json`, which have no Medicaid for adults there: by the plan alone nobody is in it. */
export const medicaidByWorkGeorgia: Dated<{
  readonly from: number
  readonly to: number
  readonly percent: number
  readonly hours: number
}> = {
  rule: 'Georgia’s Medicaid for adults who work: ages, most household income, hours of work, training, study or service a month',
  unit: 'years; percent of the federal poverty level; hours a month',
  source:
    'Georgia Pathways to Coverage, the state’s own pages on eligibility (pathways.georgia.gov), and news of its extension of September 2025, read on December 1, 2026',
  note: 'Since July 1, 2023. Approved through December 31, 2026; then it is to be made to fit the federal work requirement. Caring for a child under six who has Medicaid counts too.',
  obtained: 'secondHand',
  values: { 2023: { from: 19, to: 64, percent: 100, hours: 80 } },
  after: { by: 'held' },
}

/** By state. */
export const medicaidByWork: Readonly<Record<string, typeof medicaidByWorkGeorgia>> = {
  GA: medicaidByWorkGeorgia,
}

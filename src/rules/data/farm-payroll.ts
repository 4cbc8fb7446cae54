// From which wages on an employer of farm workers pays tax on them, and unemployment tax. The rates are `payrollTaxRates`.
import type { Dated } from '../dated.ts'

/** Cash wages in a year, to one worker or of all, from which social security and Medicare tax is due. */
export const farmWageTests: Dated<{ readonly oneWorker: number; readonly allWorkers: number }> = {
  rule: 'wages from which farm workers are under social security and Medicare tax',
  unit: 'dollars a year',
  source: '26 USC 3121(a)(8)(B); a tax page on Form 943, as told there',
  obtained: 'secondHand',
  note: 'Some hand-harvest workers are left out of it. That it has stood since 1988 is from memory.',
  values: { 1988: { oneWorker: 150, allWorkers: 2500 } },
  after: { by: 'statute' },
}

/** Cash wages in a quarter from which a farm pays federal unemployment tax. */
export const farmUnemploymentTest: Dated<number> = {
  rule: 'wages in a quarter from which a farm pays federal unemployment tax',
  unit: 'dollars a quarter',
  source: '26 USC 3306(a)(2), from memory',
  obtained: 'memory',
  note: 'In this year or the one before; or ten workers in twenty weeks.',
  values: { 1978: 20000 },
  after: { by: 'statute' },
}

/** Tax of a year on Form 943 below which nothing need be deposited before. */
export const payableWithForm943: Dated<number> = {
  rule: 'tax of a year that may be paid with Form 943 in place of deposits',
  unit: 'dollars a year',
  source: '26 CFR 31.6302-1(f)(4); instructions of Form 943, from memory',
  obtained: 'memory',
  values: { 2001: 2500 },
  after: { by: 'statute' },
}

/** Tax of the second year before on Form 943, up to which a farm deposits once a month. */
export const monthlyDepositsUpTo: Dated<number> = {
  rule: 'tax of the second year before up to which payroll tax is deposited monthly',
  unit: 'dollars a year',
  source: '26 CFR 31.6302-1(b)(2), (g)(1); IRS Pub. 15, section 11, from memory',
  obtained: 'memory',
  values: { 1993: 50000 },
  after: { by: 'statute' },
}

/** The other test of farms, and the tax: on so much of each worker's wages, less the credit for paying into the state's own fund in time. */
export const federalUnemployment: Dated<{
  readonly workers: number
  readonly weeks: number
  readonly wages: number
  readonly rate: number
  readonly credit: number
}> = {
  rule: 'federal unemployment tax of a farm: workers and weeks of its second test, wages taxed, rate and credit',
  unit: 'workers, weeks, dollars a worker, share of wages',
  source: '26 USC 3301, 3302, 3306(a)(2)(B), (b)(1); instructions of Form 940, from memory',
  obtained: 'memory',
  values: { 2012: { workers: 10, weeks: 20, wages: 7000, rate: 0.06, credit: 0.054 } },
  after: { by: 'statute' },
}

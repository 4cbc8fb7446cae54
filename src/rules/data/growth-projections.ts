// Published projections of what health coverage and care will cost: what a first plan assumes, until it says otherwise.
import type { Dated } from '../dated.ts'

/** Yearly growth, and the last January it is assumed for; then prices in general. */
type Growth = { readonly rate: number; readonly until: number }

export const marketplaceGrowth: Dated<Growth> = {
  rule: 'growth of marketplace premiums that a first plan assumes',
  unit: 'fraction a year, and its last year',
  source:
    'KFF, Marketplace Average Benchmark Premiums 2014-2026 (growth of 5.6 % a year to 2025, 7.1 % to 2026); CMS actuary, NHE Projections 2023-32, private insurance per enrollee 4.8 % (Health Affairs 43(7), exhibit 2, read)',
  obtained: 'computed',
  note: 'Our own reading between the two. Insurers asked for a median of 15 % more for 2027 (KFF, August 3, 2026, second hand); the final premiums were not found.',
  values: { 2026: { rate: 0.05, until: 2035 } },
  after: { by: 'held' },
}

export const medicareGrowth: Dated<Growth> = {
  rule: 'growth of Medicare premiums that a first plan assumes',
  unit: 'fraction a year, and its last year',
  source: 'Recalled from the Medicare Trustees’ reports; their table of 2026 could not be opened',
  obtained: 'memory',
  note: 'Spending per beneficiary of Part B grows by 3.8 % a year from 2050 on (2026 Trustees Report, table II.C1, second hand).',
  values: { 2026: { rate: 0.055, until: 2035 } },
  after: { by: 'held' },
}

export const careGrowth: Dated<Growth> = {
  rule: 'growth of the cost of care paid oneself that a first plan assumes',
  unit: 'fraction a year, and its last year',
  source:
    'CMS actuary, NHE Projections 2023-32, out-of-pocket spending per person 3.6 % a year (Health Affairs 43(7), exhibit 3, read)',
  obtained: 'read',
  values: { 2026: { rate: 0.036, until: 2032 } },
  after: { by: 'held' },
}

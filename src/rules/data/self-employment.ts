// Self-employment tax, the additional Medicare tax and the optional methods.
import type { Dated } from '../dated.ts'

const schedule = 'Schedule SE (Form 1040) 2025'

export const selfEmploymentFactor: Dated<number> = {
  rule: 'share of net profit that counts as net earnings from self-employment',
  unit: 'fraction',
  source: `26 USC 1402(a)(12), ${schedule} line 4a, read`,
  obtained: 'read',
  values: { 2024: 0.9235 },
  after: { by: 'statute' },
}

export const selfEmploymentSocialSecurityRate: Dated<number> = {
  rule: 'self-employment tax, Social Security part',
  unit: 'fraction of net earnings up to the wage base',
  source: `26 USC 1401(a), ${schedule} line 10, read`,
  obtained: 'read',
  values: { 2024: 0.124 },
  after: { by: 'statute' },
}

export const selfEmploymentMedicareRate: Dated<number> = {
  rule: 'self-employment tax, Medicare part',
  unit: 'fraction of net earnings',
  source: `26 USC 1401(b), ${schedule} line 11, read`,
  obtained: 'read',
  values: { 2024: 0.029 },
  after: { by: 'statute' },
}

export const selfEmploymentMinimum: Dated<number> = {
  rule: 'net earnings under which no self-employment tax is due',
  unit: 'dollars a year, after the factor',
  source: `26 USC 1402(b)(2), ${schedule} line 4c, read`,
  obtained: 'read',
  values: { 2024: 400 },
  after: { by: 'statute' },
}

export const wageBase: Dated<number> = {
  rule: 'Social Security wage base',
  unit: 'dollars a year for each person',
  source:
    '42 USC 430; Social Security Administration contribution and benefit base, read; 2027 read in secondary text on the notice of October 2026',
  obtained: 'read',
  values: { 2024: 168600, 2025: 176100, 2026: 184500, 2027: 192300 },
  after: { by: 'wages', to: 300, rounding: 'nearest' },
}

export const optionalMethodMax: Dated<number> = {
  rule: 'net earnings that may be reported by the optional methods, at most',
  unit: 'dollars a year for each person',
  source: `26 USC 1402(a), (l): four times the quarter of coverage; 2025 ${schedule} line 14, read`,
  obtained: 'computed',
  obtainedIn: { 2025: 'read' },
  values: { 2024: 6920, 2025: 7240, 2026: 7560, 2027: 7880 },
  after: { by: 'wages', to: 40, rounding: 'nearest' },
}

export const farmOptionalGrossLimit: Dated<number> = {
  rule: 'gross farm income up to which the farm optional method is open whatever the profit',
  unit: 'dollars a year',
  source: `one and a half times the optional maximum; 2025 ${schedule} Part II, read`,
  obtained: 'computed',
  obtainedIn: { 2025: 'read' },
  values: { 2024: 10380, 2025: 10860, 2026: 11340, 2027: 11820 },
  after: { by: 'wages', to: 60, rounding: 'nearest' },
}

export const optionalNetLimit: Dated<number> = {
  rule: 'net profit under which the optional methods are open',
  unit: 'dollars a year',
  source: `the optional maximum over 0.9235; 2025 ${schedule} Part II, read`,
  obtained: 'computed',
  obtainedIn: { 2025: 'read' },
  values: { 2024: 7493, 2025: 7840, 2026: 8186, 2027: 8533 },
  after: { by: 'wages', to: 1, rounding: 'nearest' },
}

export const nonfarmOptionalShareLimit: Dated<number> = {
  rule: 'share of gross income under which net nonfarm profit opens the nonfarm optional method',
  unit: 'fraction',
  source: `26 USC 1402(a), ${schedule} Part II, read`,
  obtained: 'read',
  values: { 2024: 0.72189 },
  after: { by: 'statute' },
}

export const additionalMedicareRate: Dated<number> = {
  rule: 'additional Medicare tax rate',
  unit: 'fraction',
  source: '26 USC 1401(b)(2), 3101(b)(2)',
  obtained: 'read',
  values: { 2024: 0.009 },
  after: { by: 'statute' },
}

export const additionalMedicareFrom: Dated<readonly number[]> = {
  rule: 'earnings above which the additional Medicare tax applies',
  unit: 'dollars a year',
  source: '26 USC 1401(b)(2), 3101(b)(2), not indexed',
  obtained: 'read',
  values: { 2024: [200000, 250000, 200000, 125000] },
  after: { by: 'statute' },
}

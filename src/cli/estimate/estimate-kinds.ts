// The single subjects `dooryard estimate --kind` works out. Each is loaded only when called.
import type { EstimateKind } from './estimate-kind.ts'

export const estimateKinds: Record<string, () => Promise<EstimateKind>> = {
  'social-security': async () => (await import('./estimate-social-security.ts')).socialSecurityKind,
  medicare: async () => (await import('./estimate-medicare.ts')).medicareKind,
  rmd: async () => (await import('./estimate-required-distribution.ts')).requiredDistributionKind,
  'even-payments': async () => (await import('./estimate-even-payments.ts')).evenPaymentsKind,
  depreciation: async () => (await import('./estimate-depreciation.ts')).depreciationKind,
  coverage: async () => (await import('./estimate-coverage.ts')).coverageKind,
  premium: async () => (await import('./estimate-premium.ts')).premiumKind,
}

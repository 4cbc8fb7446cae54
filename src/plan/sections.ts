// The sections in which the plan's pages edit it; the farm, its phases and the storms have pages of their own.
export const planSections = [
  'household',
  'health',
  'savings',
  'draw',
  'tax',
  'assumptions',
  'chance',
] as const
export type PlanSection = (typeof planSections)[number]

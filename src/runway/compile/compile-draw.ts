// The draw policy to months.
import { monthsBetween, parseMonth } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import { type Span, stepsTaken } from '#runway/span.ts'
import { drawCode } from './codes.ts'
import type { CompiledDraw } from './compiled-plan.ts'

export const compileDraw = (plan: Plan, span: Span): CompiledDraw => {
  const { draw } = plan
  const at = (text: string) => monthsBetween(span.firstMonth, parseMonth(text)!)
  const out: CompiledDraw = {
    policy: drawCode[draw.policy],
    planned: new Float64Array(span.months),
    withPrices: false,
    holdsFloor: plan.savings.drawsToHoldFloor,
    fromMonth: 0,
    fromShare: 0,
    toMonth: 0,
    toShare: 0,
  }
  if (draw.policy === 'steps') fillSteps(draw, span, out)
  else {
    out.fromMonth = at(draw.from)
    if (draw.policy === 'ramp')
      Object.assign(out, { fromShare: draw.fromShare, toMonth: at(draw.to), toShare: draw.toShare })
    if (draw.policy === 'share') out.toShare = draw.share
  }
  return out
}

/** The latest step that has begun holds; it is raised each January after it began, those before the first month counted. */
const fillSteps = (draw: Extract<Plan['draw'], { policy: 'steps' }>, span: Span, out: CompiledDraw) => {
  out.withPrices = draw.withPrices
  const steps = draw.steps
    .map((step) => ({ m: monthsBetween(span.firstMonth, parseMonth(step.from)!), perMonth: step.perMonth }))
    .sort((a, b) => a.m - b.m)
  for (const step of steps) {
    for (let m = Math.max(0, step.m); m < span.months; m += 1)
      out.planned[m] = step.perMonth * (1 + draw.growth) ** (stepsTaken(span, m) - stepsTaken(span, step.m))
  }
}

// The little script we need: one booking per press of a button, a print button, totals that follow. Everything works without it.
document.addEventListener('submit', (event) => {
  const form = event.target
  if (event.defaultPrevented || !(form instanceof HTMLFormElement) || form.method !== 'post') return
  if (form.dataset.sent) {
    event.preventDefault()
    return
  }
  form.dataset.sent = 'yes'
  noteSent(form)
  for (const button of form.querySelectorAll('button')) button.setAttribute('aria-disabled', 'true')
  if ('givesFile' in form.dataset) setTimeout(() => letSendAgain(form), 3000)
})

// What is answered by a file leaves the page as it stands, and tells it nothing.
function letSendAgain(form) {
  delete form.dataset.sent
  for (const button of form.querySelectorAll('button')) button.removeAttribute('aria-disabled')
}

// A form that books something is the same one when its page is come back to, though the page is made anew with what was typed: sent
// again it is known, and books once.
function noteSent(form) {
  const id = form.elements.namedItem('formId')?.value
  if (id && 'booksOnce' in form.dataset)
    history.replaceState({ ...history.state, sentForm: { to: form.getAttribute('action'), id } }, '')
}

addEventListener('pageshow', () => {
  const [arrival] = performance.getEntriesByType('navigation')
  const sent = arrival?.type === 'back_forward' ? history.state?.sentForm : undefined
  for (const form of sent ? document.querySelectorAll('form[data-books-once]') : [])
    if (form.getAttribute('action') === sent.to) form.elements.namedItem('formId').value = sent.id
})

// Coming back by the Back button shows the page as it was: let the form be sent again.
addEventListener('pageshow', () => {
  for (const form of document.querySelectorAll('form[data-sent]')) letSendAgain(form)
})

// A form that came back to be corrected stands at an address that only a form reaches, where Back would find the browser's own error: it
// takes the address of the page that the form was sent from.
if ('posted' in document.documentElement.dataset && document.referrer.startsWith(`${location.origin}/`))
  history.replaceState(history.state, '', document.referrer)

document.addEventListener('click', (event) => {
  if (event.target instanceof Element && event.target.closest('[data-print]')) print()
})

// An error summary asks for focus on arrival; browsers ignore a second autofocus after a partial swap.
const focusSummary = () => document.querySelector('.error-summary[autofocus]')?.focus()
addEventListener('DOMContentLoaded', focusSummary)

// A part swapped for a new one hands the focus on that was in it: to the same control there, else to the part itself.
// A button is disabled while its form is under way, so where the focus was last is remembered here.
let lastFocused = null
document.addEventListener('focusin', (event) => {
  lastFocused = event.target
})

document.addEventListener('htmx:before:swap', ({ detail }) => {
  const part = detail.ctx?.target
  const isLost = document.activeElement === document.body || part?.contains(document.activeElement)
  const from = lastFocused
  if (!part?.id || !part.parentNode || !isLost || !part.contains(from)) return
  new MutationObserver((_, observer) => {
    observer.disconnect()
    if (document.activeElement === document.body) handOn(document.getElementById(part.id), from)
  }).observe(part.parentNode, { childList: true })
})

function handOn(part, from) {
  // htmx takes a new part in hand a moment after it has come. A key pressed in that moment would load the whole page.
  if (part) htmx.process(part)
  const name = (one) => one.id || one.textContent
  const same = [...(part?.querySelectorAll(from.tagName) ?? [])].find((one) => name(one) === name(from))
  if (part && !same) part.tabIndex = -1
  const next = same ?? part
  next?.focus({ preventScroll: true })
}

// A list that can be put in order by dragging, beside the buttons that do the same: the new order goes out with its form.
document.addEventListener('dragstart', (event) => {
  const item = event.target instanceof Element ? event.target.closest('[data-reorder] > [draggable]') : null
  if (!item) return
  item.classList.add('dragged')
  event.dataTransfer.effectAllowed = 'move'
})

document.addEventListener('dragover', (event) => {
  const item = document.querySelector('.dragged')
  const over = event.target instanceof Element ? event.target.closest('[data-reorder] > [draggable]') : null
  if (!item || !over || over.parentElement !== item.parentElement) return
  event.preventDefault()
  if (over === item) return
  const { top, height } = over.getBoundingClientRect()
  over[event.clientY < top + height / 2 ? 'before' : 'after'](item)
})

document.addEventListener('dragend', () => {
  const item = document.querySelector('.dragged')
  if (!item) return
  item.classList.remove('dragged')
  const form = document.getElementById(item.parentElement.dataset.reorder)
  const order = [...item.parentElement.children].map((one) => one.dataset.id).join(' ')
  if (form.elements.order.value === order) return
  form.elements.order.value = order
  form.requestSubmit()
})

// While a statement is ticked, the sum of what is ticked and what is left over follow each tick; the server reckons anew at each save.
document.addEventListener('change', (event) => {
  const tick = event.target
  if (!(tick instanceof HTMLInputElement) || tick.name !== 'ticked[]' || !tick.dataset.cents) return
  const cents = Number(tick.dataset.cents) * (tick.checked ? 1 : -1)
  addTo(document.getElementById('ticked-sum'), cents)
  addTo(document.getElementById('left-over'), -cents)
  // What the page said of the sum before is not true of this one.
  document.querySelector('#f-difference .figure-note')?.replaceChildren()
})

function addTo(output, cents) {
  if (!output) return
  const sum = Number(output.dataset.cents) + cents
  output.dataset.cents = String(sum)
  const dollars = (Math.abs(sum) / 100).toLocaleString('en-US', { minimumFractionDigits: 2 })
  output.textContent = `${sum < 0 ? '−' : ''}$${dollars}`
}

// The total and the bars of twelve months follow what is typed into them, or into the one field that stands for all; so do the sums beside
// the fields that they are made of. The server reckons anew at each save.
document.addEventListener('input', ({ target }) => {
  const strip = target instanceof Element ? target.closest('fieldset.strip') : null
  if (strip) followMonths(strip)
  if (target instanceof HTMLInputElement && target.form) followSums(target.form)
})

const figureIn = (input) => Number((input.value.trim() || input.placeholder).replaceAll(/[$,\s]/g, ''))

function typedMonths(strip) {
  const months = [...strip.querySelectorAll('.strip-months input')]
  return months.some((input) => input.value.trim() !== '') ? months : null
}

const sumOfMonths = (strip) =>
  (typedMonths(strip) ?? [strip.querySelector('.strip-one input')]).reduce(
    (sum, input) => sum + figureIn(input),
    0,
  )

function followMonths(strip) {
  const total = strip.querySelector('[data-total]')
  const sum = sumOfMonths(strip)
  if (total)
    total.textContent = Number.isNaN(sum) ? '' : sum.toLocaleString('en-US', { maximumFractionDigits: 2 })
  const months =
    typedMonths(strip)?.map(figureIn) ?? Array(12).fill(figureIn(strip.querySelector('.strip-one input')))
  const figures = months.map((value) => Math.max(0, value || 0))
  const most = Math.max(...figures)
  for (const [k, bar] of strip.querySelectorAll('[data-bar]').entries()) {
    const height = most > 0 ? (24 * figures[k]) / most : 0
    bar.setAttribute('height', String(height))
    bar.setAttribute('y', String(24 - height))
  }
}

function followSums(form) {
  for (const sum of form.querySelectorAll('[data-sum]')) {
    const { plus, minus, times, per } = sum.dataset
    const of = (names) =>
      names
        .split(' ')
        .filter(Boolean)
        .reduce((all, name) => all + figureOf(form, name), 0)
    const value =
      ((of(plus) - of(minus)) * (times ? figureOf(form, times) : 1)) / (per ? figureOf(form, per) : 1)
    const cents = Math.round(Math.abs(value) * 100)
    const dollars = (cents / 100).toLocaleString('en-US', { minimumFractionDigits: 2 })
    sum.textContent = Number.isFinite(value) ? `${value < 0 && cents > 0 ? '−' : ''}$${dollars}` : '–'
  }
}

function figureOf(form, name) {
  const one = form.elements[`${name}.one`]
  const strip = one?.closest('fieldset.strip')
  return strip ? sumOfMonths(strip) : figureIn(form.elements[name])
}

// A table's frame can be stopped at to scroll it by keys; one that has nothing to scroll is no stop.
function stopAtFrames() {
  for (const frame of document.querySelectorAll('.table-frame')) {
    if (frame.scrollWidth > frame.clientWidth) frame.tabIndex = 0
    else frame.removeAttribute('tabindex')
  }
}
addEventListener('DOMContentLoaded', stopAtFrames)
addEventListener('resize', stopAtFrames)
document.addEventListener('toggle', stopAtFrames, true)
document.addEventListener('htmx:after:swap', stopAtFrames)

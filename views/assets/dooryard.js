// The little script we need: one booking per press of a button, a print button, totals that follow. Everything works without it.
document.addEventListener('submit', (event) => {
  const form = event.target
  if (event.defaultPrevented || !(form instanceof HTMLFormElement) || form.method !== 'post') return
  if (form.dataset.sent) {
    event.preventDefault()
    return
  }
  form.dataset.sent = 'yes'
  for (const button of form.querySelectorAll('button')) button.setAttribute('aria-disabled', 'true')
})

// Coming back by the Back button shows the page as it was: let the form be sent again.
addEventListener('pageshow', () => {
  for (const form of document.querySelectorAll('form[data-sent]')) {
    delete form.dataset.sent
    for (const button of form.querySelectorAll('button')) button.removeAttribute('aria-disabled')
  }
})

document.addEventListener('click', (event) => {
  if (event.target instanceof Element && event.target.closest('[data-print]')) print()
})

// On the desk, choosing where a row goes ticks it; the form says that its ticks are meant as they stand, and each choice is kept at once.
document.addEventListener('change', ({ target }) => {
  const form = target.form
  const row = form?.matches('[data-ticks]') ? target.closest('.desk-group') : null
  if (!row) return
  if (target.name.endsWith('.to')) row.querySelector('.desk-take').checked = target.value !== ''
  countTicks(form)
  const kept = new URLSearchParams([['ticks', 'exact']])
  for (const [name, value] of new FormData(form))
    if (name.startsWith(`${target.name.split('.', 2).join('.')}.`)) kept.append(name, value)
  fetch(form.dataset.keep, { method: 'POST', body: kept, keepalive: true })
})

function countTicks(form) {
  let ticked = 0
  let all = 0
  for (const row of form.querySelectorAll('.desk-group')) {
    const count = Number(row.dataset.count)
    const without = row.querySelectorAll('input[name$=".without[]"]:checked').length
    const own = [...row.querySelectorAll('select[name*=".own."]')].filter((each) => each.value !== '').length
    all += count
    ticked += row.querySelector('.desk-take').checked ? count - without : own
  }
  document.getElementById('desk-count').textContent = `${ticked} of ${all} ticked`
}

document.addEventListener('submit', ({ target }) => {
  if (target instanceof HTMLFormElement && target.matches('[data-ticks]'))
    target.elements.ticks.value = 'exact'
})

// Keys work while a row's tick has the focus: up, down, Enter accepts, c chooses by letters, s splits, x skips.
document.addEventListener('keydown', (event) => {
  const { target, key } = event
  if (!target.matches?.('.desk-take') || event.ctrlKey || event.metaKey || event.altKey) return
  const row = target.closest('.desk-group')
  const deeds = {
    ArrowDown: () => nextRow(row, 1),
    ArrowUp: () => nextRow(row, -1),
    Enter() {
      if (row.querySelector('select').value === '') return chooseByLetters(row)
      if (!target.checked) target.click()
      nextRow(row, 1)
    },
    c: () => chooseByLetters(row),
    s: () => row.querySelector('[data-act="Split"]').click(),
    x: () => row.querySelector('[data-act="Skip"]').click(),
  }
  const deed = deeds[key]
  if (!deed) return
  event.preventDefault()
  deed()
})

function nextRow(row, step) {
  const takes = [...document.querySelectorAll('.desk-take')]
  takes[takes.indexOf(row.querySelector('.desk-take')) + step]?.focus()
}

// A few letters in the bar find the place for the row that was last in hand, or the first without one; without script the list itself does.
let rowInHand = null
document.addEventListener('focusin', ({ target }) => {
  rowInHand = target.closest?.('.desk-group') ?? rowInHand
})

addEventListener('DOMContentLoaded', () => {
  const bar = document.querySelector('.desk-bar')
  if (!bar) return
  const label = document.createElement('label')
  label.className = 'desk-typed'
  label.append('Type a few letters of the place ')
  const input = document.createElement('input')
  const list = document.createElement('datalist')
  list.id = 'desk-places'
  input.setAttribute('list', list.id)
  input.autocomplete = 'off'
  label.append(input, list)
  const said = document.createElement('p')
  said.className = 'desk-said'
  said.setAttribute('role', 'status')
  bar.querySelector('p').after(label, said)
  input.addEventListener('focus', () => {
    const options = rowForLetters()?.querySelector('select').options ?? []
    const labels = new Set([...options].filter((one) => one.value !== '').map((one) => one.text))
    list.replaceChildren(...[...labels].map((text) => new Option(text, text)))
  })
  input.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') rowForLetters()?.querySelector('.desk-take').focus()
    if (event.key !== 'Enter') return
    event.preventDefault()
    said.textContent = placeTyped(input)
  })
})

function chooseByLetters(row) {
  rowInHand = row
  document.querySelector('.desk-typed input').focus()
}

function rowForLetters() {
  const rows = [...document.querySelectorAll('.desk-group')]
  return rowInHand ?? rows.find((row) => row.querySelector('select').value === '') ?? rows[0]
}

// What begins with the letters goes before what has them elsewhere. Answers with what was found, in words.
function placeTyped(input) {
  const typed = input.value.trim().toLowerCase()
  const row = rowForLetters()
  if (!row) return 'No transaction is shown here.'
  if (typed === '') return 'Type a few letters of the place first.'
  const select = row.querySelector('select')
  const payee = row.querySelector('strong').textContent
  const options = [...select.options].filter((one) => one.value !== '')
  const found =
    options.find((one) => one.text.toLowerCase().startsWith(typed)) ??
    options.find((one) => one.text.toLowerCase().includes(typed))
  if (!found) return `No place for ${payee} has “${input.value.trim()}” in its name.`
  select.value = found.value
  select.dispatchEvent(new Event('change', { bubbles: true }))
  input.value = ''
  nextRow(row, 1)
  return `${payee} goes to ${found.text}, and is ticked.`
}

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

// The total of twelve months follows what is typed into them, or into the one field that stands for all.
document.addEventListener('input', ({ target }) => {
  const strip = target instanceof Element ? target.closest('fieldset.strip') : null
  const total = strip?.querySelector('[data-total]')
  if (!total) return
  const figure = (input) => Number(input.value.replaceAll(/[$,\s]/g, ''))
  const months = [...strip.querySelectorAll('.strip-months input')]
  const typed = months.some((input) => input.value.trim() !== '')
    ? months
    : [strip.querySelector('.field-row input')]
  const sum = typed.reduce((all, input) => all + figure(input), 0)
  total.textContent = Number.isNaN(sum) ? '' : sum.toLocaleString('en-US', { maximumFractionDigits: 2 })
})

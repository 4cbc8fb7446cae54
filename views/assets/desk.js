// The sorting desk under the hand: ticks, keys and places by letters. All of it works without.

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

// Every place stands once on the page: behind what is likely in each list, which then needs no letters typed beside it.
function fillPlaces() {
  const filled = new Map()
  for (const select of document.querySelectorAll('select[data-places]')) {
    const id = select.dataset.places
    if (!filled.has(id)) filled.set(id, placesOf(document.getElementById(id)))
    select.append(filled.get(id).cloneNode(true))
    select.removeAttribute('data-places')
    select.parentElement
      .querySelector(`[name="${select.name.replace(/\.(to|own)\b/, '.$1Typed')}"]`)
      ?.remove()
  }
}

function placesOf(list) {
  const places = document.createDocumentFragment()
  let group = null
  for (const { value, dataset } of list.options) {
    if (group?.label !== dataset.under) {
      group = document.createElement('optgroup')
      group.label = dataset.under
      places.append(group)
    }
    const option = new Option(value, dataset.to)
    if (dataset.farm) option.dataset.farm = dataset.farm
    if (dataset.pay) option.dataset.pay = dataset.pay
    group.append(option)
  }
  return places
}

addEventListener('DOMContentLoaded', fillPlaces)
document.addEventListener('htmx:after:swap', fillPlaces)

function countTicks(form) {
  let ticked = 0
  let all = 0
  for (const row of form.querySelectorAll('.desk-group')) {
    const count = Number(row.dataset.count)
    const without = row.querySelectorAll('input[name$=".without[]"]:is(:checked, [type="hidden"])').length
    const own = [...row.querySelectorAll('[name*=".own."]')].filter((each) => each.value !== '').length
    all += count
    ticked += row.querySelector('.desk-take').checked ? count - without : own
  }
  document.getElementById('desk-count').textContent = `${ticked} of ${all} checked`
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
    x() {
      sessionStorage.setItem('desk-row', String(allTakes().indexOf(target)))
      row.querySelector('[data-act="Skip"]').click()
    },
  }
  const deed = deeds[key]
  if (!deed) return
  event.preventDefault()
  deed()
})

const allTakes = () => [...document.querySelectorAll('.desk-take')]

// The page that comes after has the hand where it was: at the row that took the skipped one's place, or at the button that turned a row on.
addEventListener('DOMContentLoaded', () => {
  const skipped = sessionStorage.getItem('desk-row')
  sessionStorage.removeItem('desk-row')
  const takes = allTakes()
  if (skipped !== null && !document.querySelector('.error-summary'))
    takes[Math.min(Number(skipped), takes.length - 1)]?.focus()
})

// Coming to rest at the place that its address names, a browser lets go of the focus: so this waits until it has.
addEventListener('load', () => {
  const turned = /^#lines-\d+$/.test(location.hash) ? document.querySelector(location.hash) : null
  const button = turned?.querySelector('[data-act="Later ones"], [data-act="Earlier ones"]')
  if (button) requestAnimationFrame(() => button.focus({ preventScroll: true }))
})

function nextRow(row, step) {
  const takes = allTakes()
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
  return `${payee} goes to ${found.text}, and is checked.`
}

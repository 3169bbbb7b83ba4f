/**
 * Moves the bars with the slider, from data that stand in the page. It computes nothing and fetches nothing; without it the page shows
 * the bars at the project's own voltage.
 */
export const sliderScript = `(() => {
  'use strict';
  for (const panel of document.querySelectorAll('[data-bars]')) {
    const states = JSON.parse(document.getElementById(panel.dataset.bars).textContent);
    const slider = panel.querySelector('input[type=range]');
    const button = panel.querySelector('button');
    const output = panel.querySelector('output');
    const rows = [...panel.querySelectorAll('tr.bar-row')].map((row) => ({
      row,
      bar: row.querySelector('.bar svg'),
      use: row.querySelector('.use'),
      warnAt: row.querySelector('.warn-at'),
      words: row.querySelector('.words'),
      verdict: row.querySelector('.verdict'),
      mark: row.querySelector('use'),
      word: row.querySelector('.word'),
    }));
    const present = Number(button.dataset.present);
    const show = () => {
      const index = Number(slider.value);
      const { says, bars } = states[index];
      // the rest of the sentence is announced by the output
      slider.setAttribute('aria-valuetext', says.slice(0, says.indexOf(':')));
      output.textContent = says;
      panel.classList.toggle('elsewhere', index !== present);
      bars.forEach(([share, warnShare, verdict, name, words], i) => {
        const parts = rows[i];
        parts.row.className = 'bar-row ' + name;
        parts.bar.toggleAttribute('hidden', share === null);
        parts.use.setAttribute('width', share ?? 0);
        parts.warnAt.setAttribute('x', warnShare ?? -9);
        parts.words.textContent = words;
        parts.verdict.className = 'verdict ' + name;
        parts.mark.setAttribute('href', '#mark-' + name);
        parts.word.textContent = verdict;
      });
    };
    slider.addEventListener('input', show);
    button.addEventListener('click', () => {
      slider.value = present;
      show();
      slider.focus();
    });
    slider.value = present;
    show();
    panel.querySelector('.slider').hidden = false;
  }
})();`;

(function () {
  var figures = Array.prototype.slice.call(document.querySelectorAll("figure[data-step]"));
  figures.sort(function (a, b) { return a.dataset.step - b.dataset.step; });
  var stage = document.getElementById("stage"), bar = document.querySelector(".steps");
  var current = 0;
  var buttons = figures.map(function (figure, k) {
    stage.appendChild(figure);
    if (figure.hasAttribute("data-departure")) current = k;
    var button = document.createElement("button"), clock = document.createElement("b");
    button.type = "button";
    clock.textContent = figure.dataset.clock;
    button.appendChild(clock);
    button.appendChild(document.createTextNode(figure.dataset.name));
    button.addEventListener("click", function () { show(k); });
    bar.appendChild(button);
    return button;
  });
  document.getElementById("others").remove();
  document.getElementById("keys").hidden = bar.hidden = false;
  function show(k) {
    current = Math.max(0, Math.min(figures.length - 1, k));
    figures.forEach(function (figure, i) { figure.hidden = i !== current; });
    buttons.forEach(function (button, i) { button.setAttribute("aria-current", i === current ? "true" : "false"); });
  }
  document.addEventListener("keydown", function (event) {
    var by = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (!by || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    show(current + by);
    if (bar.contains(document.activeElement)) buttons[current].focus();
  });
  show(current);
})();

document.querySelectorAll("table.sortable").forEach(function (table) {
  table.querySelectorAll("thead th").forEach(function (head, column) {
    var button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    head.textContent = "";
    head.appendChild(button);
    button.addEventListener("click", function () {
      var up = head.getAttribute("aria-sort") !== "ascending";
      table.querySelectorAll("thead th").forEach(function (other) { other.removeAttribute("aria-sort"); });
      head.setAttribute("aria-sort", up ? "ascending" : "descending");
      var body = table.tBodies[0];
      var value = function (row) { var cell = row.cells[column]; return cell.dataset.order || cell.textContent.trim(); };
      Array.from(body.rows).sort(function (a, b) {
        var x = value(a), y = value(b), n = parseFloat(x) - parseFloat(y);
        var order = isNaN(n) || n === 0 ? x.localeCompare(y) : n;
        return up ? order : -order;
      }).forEach(function (row) { body.appendChild(row); });
    });
  });
});
document.querySelectorAll("table.index").forEach(function (table) {
  var label = document.createElement("label"), input = document.createElement("input"), count = document.createElement("span");
  label.className = "filter";
  label.textContent = "Show only ";
  input.type = "search";
  input.placeholder = "a circuit, does NOT, doubtful";
  count.setAttribute("role", "status");
  label.appendChild(input);
  label.appendChild(count);
  table.parentNode.parentNode.insertBefore(label, table.parentNode);
  input.addEventListener("input", function () {
    var words = input.value.toLowerCase().split(/\s+/), seen = 0;
    Array.from(table.tBodies[0].rows).forEach(function (row) {
      var text = row.textContent.toLowerCase();
      row.hidden = !words.every(function (word) { return text.indexOf(word) >= 0; });
      seen += row.hidden ? 0 : 1;
    });
    count.textContent = input.value ? " " + seen + " of " + table.tBodies[0].rows.length : "";
  });
});

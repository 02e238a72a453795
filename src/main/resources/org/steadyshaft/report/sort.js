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

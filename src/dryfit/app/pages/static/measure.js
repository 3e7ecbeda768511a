// On the measure page Enter goes on to the next box; leaving a box is what keeps it.
document.addEventListener("keydown", (event) => {
  const box = event.target;
  if (event.key !== "Enter" || !box.matches?.(".size input")) return;
  event.preventDefault();
  const boxes = [...document.querySelectorAll(".size input:not([type=hidden])")].filter((one) => one.offsetParent);
  const next = boxes[boxes.indexOf(box) + 1];
  if (box.matches("[aria-invalid]") && box.value === box.defaultValue) box.form.requestSubmit();
  else if (next) {
    next.focus();
    next.select();
  } else box.blur();
});

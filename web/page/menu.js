// The menu: files out and in through the browser's own dialogs, colours, and the screens in words.
const element = (id) => document.getElementById(id);

// Offers a text as a file to be kept.
export function offer(name, text) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text]));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

export function attach(menu) {
  const dialog = element("menu");
  const say = (text) => { element("told").textContent = text; };
  const chosen = (input, then) => element(input).addEventListener("change", async (event) => {
    const file = event.target.files[0];
    if (file) await then(file);
    event.target.value = "";
  });
  const order = (button, then) => element(button).addEventListener("click", then);
  const exported = (asTable, name) => {
    try {
      offer(name, menu.export(asTable));
    } catch (why) {
      say(String(why));
    }
  };

  dialog.addEventListener("close", () => element("screen").focus());
  order("open-menu", () => { say(""); dialog.showModal(); });
  order("as-words", () => {
    const words = document.body.classList.toggle("in-words");
    element("as-words").setAttribute("aria-pressed", String(words));
    dialog.close();
  });
  order("open-piece", () => element("piece-file").click());
  order("open-book", () => element("book-file").click());
  order("save-verdict", () => offer("verdict.json", menu.verdict()));
  order("save-table", () => exported(true, "stock.csv"));
  order("save-objects", () => exported(false, "stock.json"));
  order("save-settings", () => offer("settings.ron", menu.settings()));
  order("open-settings", () => element("settings-file").click());
  chosen("settings-file", async (file) => say(menu.set_terms(await file.text())));
  chosen("piece-file", async (file) => {
    const why = menu.open_file(file.name, await file.text());
    if (why) say(why); else dialog.close();
  });
  chosen("book-file", async (file) => say(menu.import(new Uint8Array(await file.arrayBuffer()))));
  for (const choice of document.querySelectorAll("input[name=colours]")) {
    choice.checked = choice.value === (localStorage.getItem("printseam.colours") ?? "system");
    choice.addEventListener("change", () => menu.colours(choice.value));
  }
}

// A file chosen is read into the field, and can be seen there before it is sent.
"use strict";

const file = document.querySelector("#file");
if (file) {
  file.addEventListener("change", async () => {
    if (!file.files.length) return;
    const bytes = await file.files[0].arrayBuffer();
    try {
      document.querySelector("textarea[name=text]").value = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
      file.setCustomValidity("");
    } catch {
      // Letters that nobody can tell would be lost without a word.
      file.setCustomValidity("The file is not UTF-8. Save it as UTF-8 and choose it again.");
      file.reportValidity();
    }
  });
}

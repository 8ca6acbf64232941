// A file chosen is read into the field, and can be seen there before it is sent.
"use strict";

const file = document.querySelector("#file");
if (file) {
  file.addEventListener("change", async () => {
    if (!file.files.length) return;
    const bytes = await file.files[0].arrayBuffer();
    document.querySelector("textarea[name=text]").value = new TextDecoder().decode(bytes);
  });
}

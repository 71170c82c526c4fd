/**
 * Where nobody answers and a page is not kept: which pages are, of whoever was last let in here.
 */
import { element, link } from "./build.js";

const whose = await (await caches.match("/whose", { cacheName: "throwbench-whose" }))?.text();
const pages = whose ? await caches.open(`throwbench-pages-${whose}`) : null;
const kept = pages ? await pages.keys() : [];
const rows = await Promise.all(kept.map(row));
if (rows.length) document.querySelector("main").append(section());

function section() {
  const list = element("ul.acts", ...rows);
  list.setAttribute("role", "list");
  const title = element("div.leaf__head", element("h2", "Kept here"));
  return element("section.leaf", title, element("div.leaf__body", list));
}

async function row(request) {
  const text = await (await pages.match(request)).text();
  const title = new DOMParser().parseFromString(text, "text/html").title.replace(" · Throwbench", "");
  const one = link(title, request.url);
  one.className = "act act--plain";
  return element("li", one);
}

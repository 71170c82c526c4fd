/**
 * Several tabs know of the same candle, and one of them sounds: two alarms that beat against each
 * other are harder to place than one.
 *
 * Whose turn it is stands in localStorage and runs out by itself: a tab that ends or falls asleep
 * is followed within seconds. A tab in front goes before a hidden one, which somebody may have
 * muted and forgotten.
 */
import { newId } from "./ids.js";

const NAME = "alarm-sounds";
const LASTS_MS = 4000;
const ME = newId();

/** @returns {boolean} whether this tab is the one that sounds, for the next seconds */
export function takeTurn() {
  const now = Date.now();
  const held = holder();
  const isInFront = document.visibilityState === "visible";
  const isFree = held === null || held.by === ME || held.until < now || held.until > now + LASTS_MS;
  if (!isFree && (held.isInFront || !isInFront)) return false;
  localStorage.setItem(NAME, JSON.stringify({ by: ME, until: now + LASTS_MS, isInFront }));
  return true;
}

/** The next tab need not wait. */
export function giveTurnBack() {
  if (holder()?.by === ME) localStorage.removeItem(NAME);
}

function holder() {
  return JSON.parse(localStorage.getItem(NAME) ?? "null");
}

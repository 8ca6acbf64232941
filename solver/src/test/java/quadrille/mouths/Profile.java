package quadrille.mouths;

/** What kind of patient a random mouth belongs to. */
public enum Profile {
  /** An adult of 30 or more, as surveys find them: most need little. */
  POPULATION,
  /** A patient who is about to be treated for periodontitis. */
  TREATMENT,
  /** Deep and heavy throughout; some sites could not be probed. */
  SEVERE,
  /** Shallow pockets, little deposit. */
  MILD,
  /** A patient about to be treated, with one to eight implants. */
  IMPLANTS,
  /** A patient about to be treated, with heart disease and a low body weight. */
  CAPPED,
  /** One of {@link MouthGenerator#hostile()}, taken by the seed. */
  HOSTILE
}

package quadrille.facts.practice;

/** How thick an insert is and what it is made for; or that it is worked with by hand. */
public enum InsertClass {
  STANDARD("standard"),
  BROAD("broad"),
  SLIM("slim"),
  FINEST("finest"),
  SLEEVED("sleeved"),
  /** Hand instruments for natural teeth, a set. */
  HAND("hand"),
  /** Hand instruments that may touch an implant, a set: no metal that scratches it. */
  HAND_IMPLANT("hand-implant");

  private final String word;

  InsertClass(String word) {
    this.word = word;
  }

  /** Whether it is worked with by hand, without the unit. */
  public boolean hand() {
    return this == HAND || this == HAND_IMPLANT;
  }

  /** Whether it may touch implants, and nothing else. */
  public boolean forImplants() {
    return this == SLEEVED || this == HAND_IMPLANT;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}

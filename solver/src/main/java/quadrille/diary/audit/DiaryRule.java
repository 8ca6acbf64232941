package quadrille.diary.audit;

/** What a diary must keep. */
public enum DiaryRule {
  /** A booking names a clinician, a chair, a set, or a visit of a course that the diary has. */
  KNOWN("known names"),
  /** A visit has one booking. */
  BOOKED_ONCE("booked once"),
  /** A clinician is in one place at a time. */
  CLINICIAN_ONCE("clinician once"),
  /** A chair takes one patient at a time. */
  CHAIR_ONCE("chair once"),
  /** A clinician works only in their hours, and not in breaks. */
  HOURS("hours"),
  /** A clinician or a chair that is away treats nobody. */
  AWAY("away"),
  /** Nothing takes place while the practice is closed. */
  CLOSED("closed"),
  /** A clinician may do what the visit needs. */
  CAPABILITY("capability"),
  /**
   * Where the clinician may not inject, someone who may is there whenever a needle comes, for all
   * of that time and a margin.
   */
  INJECTOR("injector"),
  /** A visit is booked for what its course asks: length, needs and sets. */
  AS_ASKED("as asked"),
  /** The visits of a course come in their order, none before the earliest day. */
  ORDER("order"),
  /** The days between two visits of a course are as many as it allows. */
  GAP("gap"),
  /** A visit that ends what another began follows it within the days asked for. */
  FINISH_WITHIN("finish within"),
  /** A visit of a provisional plan is held, never promised. */
  PROVISIONAL("provisional"),
  /** The patient can come. */
  PATIENT("patient"),
  /** No more sterile sets are in use or being reprocessed than there are. */
  SETS("sets");

  private final String word;

  DiaryRule(String word) {
    this.word = word;
  }

  /** As people and programs read it. */
  public String word() {
    return word;
  }
}

package quadrille.diary.booking.problem;

/** What a booking can cost. */
public enum CostTerm {
  /** Days until the course is finished. */
  FINISH("finish"),
  /** Days until it starts, squared. */
  WAIT("wait"),
  /** Changes of clinician. */
  CLINICIAN_CHANGE("change of clinician"),
  /** Visits with another clinician than preferred. */
  OTHER_CLINICIAN("other clinician"),
  /** Visits at other times than preferred. */
  OTHER_TIME("other time"),
  /** Minutes left over that nobody can use. */
  SLIVERS("leftover minutes");

  private final String word;

  CostTerm(String word) {
    this.word = word;
  }

  /** As people and programs read it. */
  public String word() {
    return word;
  }
}

package quadrille.cli.render.page;

/** The pages of a course under way, one for each reader. */
public enum ProgressKind {
  /** For the practice: what is done, what is left, what it took. */
  PROGRESS("progress"),
  /** For the patient to take home: what is to come, and when. */
  PATIENT("patient");

  private final String word;

  ProgressKind(String word) {
    this.word = word;
  }

  /** As written on the command line. */
  public String word() {
    return word;
  }
}

package quadrille.cli.render.page;

/** The pages of a course, one for each reader. */
public enum PageKind {
  /** For the clinician: one sheet on the course, then one a visit. */
  CHAIRSIDE("chairside"),
  /** For whoever books. */
  DESK("desk"),
  /** For the patient to take home. */
  PATIENT("patient");

  private final String word;

  PageKind(String word) {
    this.word = word;
  }

  /** As written on the command line. */
  public String word() {
    return word;
  }
}

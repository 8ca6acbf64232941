package quadrille.cli.render.page;

/** The pages of a mouth before treatment and after it, one for each reader. */
public enum ReassessKind {
  /** For the clinician: figures by area, what is still open, what to decide. */
  CLINICIAN("clinician"),
  /** For the patient to take home. */
  PATIENT("patient");

  private final String word;

  ReassessKind(String word) {
    this.word = word;
  }

  /** As written on the command line. */
  public String word() {
    return word;
  }
}

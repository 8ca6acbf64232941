package quadrille.facts.chart;

/** What makes a tooth slower, tenderer or more delicate to work on. */
public enum Feature {
  CROWDED("crowded"),
  TIGHT_TISSUE("tight-tissue"),
  CALCULUS_BRIDGE("calculus-bridge"),
  HEAVY_STAIN("heavy-stain"),
  SENSITIVE("sensitive"),
  RESTORATION_MARGIN("restoration-margin"),
  DEMINERALISED("demineralised");

  private final String word;

  Feature(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}

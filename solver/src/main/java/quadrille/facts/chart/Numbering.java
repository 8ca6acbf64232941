package quadrille.facts.chart;

import java.util.Optional;

/** How a chart names its teeth. */
public enum Numbering {
  /** ISO 3950 two-digit codes, 11 to 48. */
  ISO3950("iso3950"),
  /** Numbers 1 to 32 from the upper right third molar. */
  UNIVERSAL("universal");

  private final String word;

  Numbering(String word) {
    this.word = word;
  }

  /** As written in a chart. */
  public String word() {
    return word;
  }

  /** A tooth's name in this numbering. */
  public String name(Tooth tooth) {
    return Integer.toString(this == ISO3950 ? tooth.iso() : tooth.universal());
  }

  /** The tooth of a name in this numbering, or nothing where it names none. */
  public Optional<Tooth> tooth(String name) {
    return Tooth.values().stream().filter(tooth -> name(tooth).equals(name)).findFirst();
  }
}

package quadrille.planning;

import java.util.List;

/** Why a course is as it is, in sections of plain lines. */
public record Explanation(List<Section> sections) {

  /** A heading and its lines. */
  public record Section(String heading, List<String> lines) {
    public Section {
      lines = List.copyOf(lines);
    }
  }

  public Explanation {
    sections = List.copyOf(sections);
  }
}

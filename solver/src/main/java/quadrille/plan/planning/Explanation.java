package quadrille.plan.planning;

import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Why a course is as it is, in sections of plain lines. Worked out when first asked for, since it
 * takes about as long as planning; for use by one thread.
 */
public final class Explanation {
  private final Supplier<List<Section>> source;
  private @Nullable List<Section> sections;

  private Explanation(Supplier<List<Section>> source) {
    this.source = source;
  }

  /** An explanation that says nothing. */
  static Explanation none() {
    return new Explanation(List::of);
  }

  /** An explanation that is worked out when asked for. */
  static Explanation later(Supplier<List<Section>> source) {
    return new Explanation(source);
  }

  /** A heading and its lines. */
  public record Section(String heading, List<String> lines) {
    public Section {
      lines = List.copyOf(lines);
    }
  }

  /** The sections, in order. */
  public List<Section> sections() {
    List<Section> known = sections;
    if (known == null) {
      known = List.copyOf(source.get());
      sections = known;
    }
    return known;
  }
}

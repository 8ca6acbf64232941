package quadrille.facts.chart;

import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What a clinician asks of a course beyond its rules. A wish never overrides a hard rule: one that
 * must be kept and cannot be leaves no plan.
 *
 * @param must whether it must be kept; if not, a course that does not keep it costs more
 */
public record Wish(boolean must, Ask ask) {

  /** No chart has more. */
  public static final int MOST = 20;

  /** What is asked, of one kind or another. */
  public sealed interface Ask {

    /** The places that it is about; empty where it is about the whole course. */
    default List<Region> regions() {
      return List.of();
    }
  }

  /**
   * All work there in one visit, by its number.
   *
   * @param visit 1, 2, 3 …
   * @param ofVisits the number of visits at which the wish holds; null for any
   */
  public record InVisit(List<Region> regions, int visit, @Nullable Integer ofVisits)
      implements Ask {
    public InVisit {
      regions = List.copyOf(regions);
    }
  }

  /** All work there in one visit, whichever. */
  public record Together(List<Region> regions) implements Ask {
    public Together {
      regions = List.copyOf(regions);
    }
  }

  /** No visit works in two of these places. */
  public record Apart(List<Region> regions) implements Ask {
    public Apart {
      regions = List.copyOf(regions);
    }
  }

  /** Nothing elsewhere is worked on in a visit before the one that finishes there. */
  public record First(List<Region> regions) implements Ask {
    public First {
      regions = List.copyOf(regions);
    }
  }

  /** No step there waits for an injection: pocket gel, or else it is held back. */
  public record NoInjection(List<Region> regions) implements Ask {
    public NoInjection {
      regions = List.copyOf(regions);
    }
  }

  /** An insert of the practice is not used. */
  public record NotInsert(String insert) implements Ask {}

  /** Nothing is touched before it is numb. */
  public record NumbFirst() implements Ask {}

  /** The work is done by hand, without the ultrasonic unit. */
  public record ByHand() implements Ask {}

  /**
   * A quadrant, or an area of it.
   *
   * @param area null for the whole quadrant
   */
  public record Region(Quadrant quadrant, @Nullable AreaRef area) {

    /** Whether some of an area's teeth stand in it. */
    public boolean meets(Collection<Tooth> teeth) {
      return teeth.stream().anyMatch(this::holds);
    }

    /** Whether a tooth may belong to it. */
    public boolean holds(Tooth tooth) {
      return area == null ? tooth.quadrant() == quadrant : area.holds(tooth);
    }

    /** Its name, such as {@code UR}, {@code UR posterior} or {@code UR posterior 17-16}. */
    public String name(Numbering numbering) {
      return area == null ? quadrant.name() : area.name(numbering);
    }
  }

  /** Whether it is about which areas lie in which visit, not about how they are worked on. */
  public boolean aboutVisits() {
    return ask instanceof InVisit
        || ask instanceof Together
        || ask instanceof Apart
        || ask instanceof First;
  }

  /** Whether work is planned by it, but need not be. */
  public boolean choosesWork() {
    return !must && (ask instanceof NotInsert || ask instanceof NumbFirst || ask instanceof ByHand);
  }

  /** Whether it holds in a course of so many visits. */
  public boolean holdsAt(int visits) {
    return !(ask instanceof InVisit in)
        || in.ofVisits() == null
        || Integer.valueOf(visits).equals(in.ofVisits());
  }

  /** Whether some of an area's teeth stand in a place that it is about. */
  public boolean about(Collection<Tooth> teeth) {
    return ask.regions().stream().anyMatch(region -> region.meets(teeth));
  }

  /** The same, to be kept. */
  public Wish asMust() {
    return new Wish(true, ask);
  }

  /**
   * As it is read back by {@link WishSentences}, such as {@code must UR posterior in visit 2}.
   *
   * @param numbering how to name teeth
   */
  public String words(Numbering numbering) {
    String places =
        ask.regions().stream()
            .map(region -> region.name(numbering))
            .collect(Collectors.joining(" and "));
    String asked;
    if (ask instanceof InVisit in) {
      asked =
          places
              + " in visit "
              + in.visit()
              + (in.ofVisits() == null ? "" : " of " + in.ofVisits());
    } else if (ask instanceof Together) {
      asked = places + " together";
    } else if (ask instanceof Apart) {
      asked = places + " apart";
    } else if (ask instanceof First) {
      asked = places + " first";
    } else if (ask instanceof NoInjection) {
      asked = "no injection in " + places;
    } else if (ask instanceof NotInsert not) {
      asked = "not " + not.insert();
    } else {
      asked = ask instanceof ByHand ? "by hand" : "numb first";
    }
    return (must ? "must " : "rather ") + asked;
  }
}

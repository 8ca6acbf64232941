package quadrille.cli.render;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import quadrille.treatment.restaging.WayOn;

/** The ways in which a course under way may go on, side by side. */
public final class WayWords {

  private WayWords() {}

  /** What a way does, a few words. */
  public static String kind(WayOn.Kind kind) {
    return switch (kind) {
      case USUAL -> "appointments kept as far as may be";
      case LONGER_VISIT -> "a visit to come takes what was left, for longer";
      case VISITS_JOINED -> "two visits of one side become one";
      case VISIT_ADDED -> "what was left gets a visit of its own";
    };
  }

  /** What a way costs, a sentence. */
  public static String cost(WayOn way) {
    String calls =
        way.calls().isEmpty()
            ? "Nobody need be called"
            : Words.count(way.calls().size(), "call")
                + " ("
                + way.calls().stream().map(WayWords::call).collect(Collectors.joining("; "))
                + ")";
    int more = way.more();
    return calls
        + "; "
        + way.minutes()
        + "\u00a0min in all"
        + (more == 0 ? ", as before" : ", " + Math.abs(more) + (more > 0 ? " more" : " fewer"))
        + ".";
  }

  private static String call(WayOn.Call call) {
    String visit = "visit " + call.visit();
    if (call instanceof WayOn.Call.Make make) {
      return visit + ", new, " + make.minutes() + "\u00a0min";
    }
    return call instanceof WayOn.Call.Lengthen longer
        ? visit + ", " + longer.minutes() + "\u00a0min instead of " + longer.booked()
        : visit + ", called off";
  }

  /**
   * All of them, numbered; nothing where there is one.
   *
   * @param taken the number of the one that is shown, 1, 2, 3 …
   */
  static List<String> lines(List<WayOn> ways, int taken) {
    return ways.size() < 2
        ? List.of()
        : IntStream.rangeClosed(1, ways.size())
            .mapToObj(
                number ->
                    number
                        + (number == taken ? " (shown): " : ": ")
                        + kind(ways.get(number - 1).kind())
                        + ". "
                        + cost(ways.get(number - 1)))
            .toList();
  }
}

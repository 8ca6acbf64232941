package quadrille.cli.render;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Wish;
import quadrille.plan.course.Course;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.course.WishOutcome.State;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.Comparison;

/** What became of wishes, in words. */
public final class WishWords {
  private static final int MINUTE = 60;

  private WishWords() {}

  /** A line for each wish of a course. */
  public static List<String> of(Course course, Numbering numbering) {
    return course.wishes().stream().map(one -> of(one, numbering)).toList();
  }

  /** What a chart wishes, a line each. */
  public static List<String> said(Chart chart) {
    return chart.patient().wishes().stream()
        .map(wish -> Words.capital(wish.words(chart.numbering())))
        .toList();
  }

  /**
   * What a course costs more than another of the same mouth, and what else moves with it.
   *
   * @param before null where there was none
   */
  public static List<String> difference(@Nullable Course before, Course after, Chart chart) {
    if (before == null) {
      return List.of("Without it there is no such course.");
    }
    List<String> lines = new ArrayList<>();
    long cost = after.cost().seconds() - before.cost().seconds();
    lines.add(
        cost == 0
            ? "Costs nothing."
            : (cost > 0 ? "Costs " : "Saves ")
                + duration(Math.abs(cost))
                + " by the practice\u2019s weights.");
    List<String> sums = new ArrayList<>();
    sum(sums, after.bookedMinutes() - before.bookedMinutes(), "min booked", "min booked");
    sum(sums, after.injections() - before.injections(), "injection", "injections");
    sum(sums, after.tipChanges() - before.tipChanges(), "change of insert", "changes of insert");
    if (!sums.isEmpty()) {
      lines.add(Words.capital(FaultWords.all(sums)) + ".");
    }
    List<String> moved = new ArrayList<>();
    for (Visit visit : after.visits()) {
      for (AreaRef area : visit.areas()) {
        boolean there =
            before.visits().stream()
                .anyMatch(one -> one.number() == visit.number() && one.areas().contains(area));
        if (!there) {
          moved.add(Words.area(area, chart) + " to visit " + visit.number());
        }
      }
    }
    if (!moved.isEmpty()) {
      lines.add("Moves " + FaultWords.all(moved) + ".");
    }
    return lines;
  }

  private static void sum(List<String> sums, int more, String one, String many) {
    if (more != 0) {
      int count = Math.abs(more);
      sums.add(count + " " + (count == 1 ? one : many) + (more > 0 ? " more" : " fewer"));
    }
  }

  /** A line for each wish, with what became of it at each number of visits. */
  public static List<String> of(Comparison comparison, Numbering numbering) {
    Map<Wish, Map<State, List<String>>> wishes = new LinkedHashMap<>();
    for (Choice choice : comparison.groups().get(0).choices()) {
      if (choice.course() != null) {
        for (WishOutcome outcome : choice.course().wishes()) {
          wishes
              .computeIfAbsent(outcome.wish(), wish -> new EnumMap<>(State.class))
              .computeIfAbsent(outcome.state(), state -> new ArrayList<>())
              .add(Integer.toString(choice.visits()));
        }
      }
    }
    List<String> lines = new ArrayList<>();
    wishes.forEach(
        (wish, states) ->
            lines.add(
                Words.capital(wish.words(numbering))
                    + ": "
                    + states.entrySet().stream()
                        .map(one -> at(wish, one.getKey(), one.getValue()))
                        .collect(Collectors.joining("; "))
                    + "."));
    return lines;
  }

  private static String at(Wish wish, State state, List<String> visits) {
    String at =
        " at " + FaultWords.all(visits) + (visits.equals(List.of("1")) ? " visit" : " visits");
    return switch (state) {
      case KEPT -> "kept" + at;
      case NOT_KEPT -> "not kept" + at;
      case OTHER_NUMBER -> "left out" + at;
      case NOTHING_THERE, DROPPED -> state(wish, state) + at;
    };
  }

  private static String state(Wish wish, State state) {
    return switch (state) {
      case KEPT -> "kept";
      case NOT_KEPT -> "not kept";
      case NOTHING_THERE ->
          wish.ask() instanceof Wish.NotInsert
              ? "the practice has no such insert"
              : "nothing is planned there";
      case OTHER_NUMBER -> "it holds at another number of visits only, and is left out here";
      case DROPPED -> "dropped, since the course has been staged again";
    };
  }

  static String of(WishOutcome outcome, Numbering numbering) {
    Wish wish = outcome.wish();
    String state = state(wish, outcome.state());
    if (outcome.state() == State.KEPT) {
      state += price(outcome.price());
    } else if (outcome.state() == State.NOT_KEPT) {
      state += against(outcome);
    }
    return Words.capital(wish.words(numbering)) + ": " + state + ".";
  }

  private static String price(WishOutcome.@Nullable Price price) {
    if (price == null) {
      return "";
    }
    List<String> saved = new ArrayList<>();
    if (price.visits() > 0) {
      saved.add(Words.count(price.visits(), "visit"));
    }
    if (price.bookedMinutes() > 0) {
      saved.add(price.bookedMinutes() + " min booked");
    }
    if (price.seconds() == 0) {
      return "; it costs nothing";
    }
    String also = saved.isEmpty() ? "" : ", with " + FaultWords.all(saved) + " less";
    return "; without it the best course would cost "
        + duration(price.seconds())
        + " less by the practice's weights"
        + also;
  }

  private static String against(WishOutcome outcome) {
    if (outcome.against() instanceof WishOutcome.CostsMore more) {
      return "; to keep it would cost " + duration(more.seconds()) + ", more than it is worth";
    }
    if (outcome.against() instanceof WishOutcome.Rules rules) {
      return "; against it stands " + standing(rules.rules());
    }
    if (outcome.against() instanceof WishOutcome.NoOtherInsert) {
      return ", since the practice owns no other insert that may do some of the work";
    }
    return outcome.wish().ask() instanceof Wish.NoInjection
        ? ", since pocket gel does not serve there"
        : "";
  }

  /** What stands against a wish that is not kept. */
  public static String standing(WishOutcome outcome, Numbering numbering) {
    return outcome.against() instanceof WishOutcome.Rules rules
        ? "Against it stands " + standing(rules.rules()) + "."
        : of(outcome, numbering);
  }

  private static String duration(long seconds) {
    return seconds < MINUTE ? seconds + " s" : Math.round(seconds / (double) MINUTE) + " min";
  }

  /** Rules by what they say. */
  static String standing(List<HardRule> rules) {
    return rules.isEmpty()
        ? "more than one rule at once"
        : FaultWords.either(rules.stream().map(WishWords::rule).toList());
  }

  private static String rule(HardRule rule) {
    return switch (rule) {
      case ONE_NUMB_SIDE -> "that one visit numbs one side only";
      case LENGTH -> "how long a visit may be";
      case KITS -> "how many inserts a tray holds";
      case START_WITH_THE_COMPLAINT -> "that the course starts with the complaint";
      case NO_EMPTY_VISIT -> "the number of visits asked for";
      default -> RuleWords.rule(rule);
    };
  }

  /** Wishes that must be kept and cannot be. */
  static String refused(Wish wish, Numbering numbering, List<HardRule> against) {
    return "the wish \"" + wish.words(numbering) + "\": against it stands " + standing(against);
  }
}

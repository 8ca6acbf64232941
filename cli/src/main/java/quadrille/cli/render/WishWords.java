package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Wish;
import quadrille.plan.course.Course;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.WishOutcome;

/** What became of wishes, in words. */
public final class WishWords {
  private static final int MINUTE = 60;

  private WishWords() {}

  /** A line for each wish of a course. */
  public static List<String> of(Course course, Numbering numbering) {
    return course.wishes().stream().map(one -> of(one, numbering)).toList();
  }

  static String of(WishOutcome outcome, Numbering numbering) {
    Wish wish = outcome.wish();
    String state =
        switch (outcome.state()) {
          case KEPT -> "kept" + price(outcome.price());
          case NOT_KEPT -> "not kept" + against(outcome);
          case NOTHING_THERE ->
              wish.ask() instanceof Wish.NotInsert
                  ? "the practice has no such insert"
                  : "nothing is planned there";
          case OTHER_NUMBER -> "it holds at another number of visits only, and is left out here";
          case DROPPED -> "dropped, since the course has been staged again";
        };
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
      default -> ClashWords.rule(rule);
    };
  }

  /** Wishes that must be kept and cannot be. */
  static String refused(Wish wish, Numbering numbering, List<HardRule> against) {
    return "the wish \"" + wish.words(numbering) + "\": against it stands " + standing(against);
  }
}

package quadrille.cli.render;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.LengthLimit;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WhyVisit;

/** Why a course has the visits that it has, and what would save one, in words. */
public final class ReasonWords {
  /** Heads what would save a visit. */
  public static final String FEWER = "One visit fewer would need";

  private ReasonWords() {}

  /**
   * Why a course has the visits that it has, each thing once: first which of them numb which side,
   * then what keeps apart those that could share a visit by their sides.
   */
  public static List<String> why(Course course) {
    List<String> lines = new ArrayList<>();
    Set<Integer> right = new TreeSet<>();
    Set<Integer> left = new TreeSet<>();
    for (WhyVisit why : reasons(course)) {
      if (sides(course, why)) {
        Stream.concat(Stream.of(why.visit()), why.others().stream())
            .forEach(one -> (side(course, one) == Side.RIGHT ? right : left).add(one));
      }
    }
    if (!right.isEmpty()) {
      lines.add(
          Words.capital(visits(right))
              + (right.size() == 1 ? " numbs" : " numb")
              + " the right side, "
              + visits(left)
              + " the left: one visit numbs one side only.");
    }
    for (WhyVisit why : reasons(course)) {
      // What keeps two visits apart is told of the first of them.
      List<Integer> others = why.others().stream().filter(one -> one > why.visit()).toList();
      if (!sides(course, why) && (why.others().isEmpty() || !others.isEmpty())) {
        lines.add(
            "Visit " + why.visit() + ": " + why(new WhyVisit(why.visit(), others, why.because())));
      }
    }
    return lines;
  }

  private static List<WhyVisit> reasons(Course course) {
    return course.visits().stream()
        .flatMap(visit -> course.reasons().of(visit.number()).stream())
        .toList();
  }

  /** Whether a visit cannot be one with others since they numb the other side. */
  private static boolean sides(Course course, WhyVisit why) {
    Side side = side(course, why.visit());
    return why.because() == WhyVisit.Known.NUMB_SIDE
        && side != null
        && why.others().stream()
            .map(other -> side(course, other))
            .allMatch(other -> other != null && other != side);
  }

  private static @Nullable Side side(Course course, int number) {
    for (Visit visit : course.visits()) {
      if (visit.number() == number) {
        return switch (visit.numbSide()) {
          case RIGHT -> Side.RIGHT;
          case LEFT -> Side.LEFT;
          case NONE, BOTH -> null;
        };
      }
    }
    return null;
  }

  /** Why a visit is one of its own: a sentence. */
  static String why(WhyVisit why) {
    String others = visits(why.others());
    boolean one = why.others().size() == 1;
    if (why.because() instanceof WhyVisit.TooLong tooLong) {
      return "Together with "
          + others
          + " it would have to be booked for "
          + tooLong.minutes()
          + " minutes, and no visit may be longer than "
          + tooLong.longestMinutes()
          + limits(tooLong.limits())
          + ".";
    }
    if (why.because() instanceof WhyVisit.Tray tray) {
      return "Together with "
          + others
          + " it would use "
          + tray.inserts()
          + " inserts, and a tray holds "
          + tray.holds().asInt()
          + assumed(tray.holds())
          + ".";
    }
    return switch ((WhyVisit.Known) why.because()) {
      case NUMB_SIDE ->
          "One visit numbs one side only, and "
              + others
              + (one ? " numbs" : " numb")
              + " the other.";
      case DOUBLE_BLOCK ->
          "Together with "
              + others
              + " it would block both sides of the lower jaw, which is never done in one visit.";
      case DOSE -> "Together with " + others + " it would take more anaesthetic than may be given.";
      case NUMBNESS_ENDS -> "Together with " + others + " numbness would end before the work does.";
      case BEGUN_IS_FINISHED ->
          "An area that is begun is finished in the same visit, and that takes a visit more.";
      case WISHED -> "A wish keeps its work out of " + others + ".";
      case COSTS_LESS ->
          "Its work could be done in "
              + others
              + ", but two visits cost less by the practice's weights.";
      case ASKED_FOR ->
          "Its work could be done in " + others + ", but so many visits were asked for.";
    };
  }

  private static String visits(Collection<Integer> numbers) {
    List<String> all = numbers.stream().map(String::valueOf).toList();
    int last = all.size() - 1;
    return all.size() < 2
        ? "visit " + String.join("", all)
        : "visits " + String.join(", ", all.subList(0, last)) + " and " + all.get(last);
  }

  /** The same of a course; none where it was not sought. */
  public static List<String> needs(Course course, Practice practice) {
    OneVisitFewer fewer = course.reasons().oneVisitFewer();
    return fewer == null ? List.of() : needs(fewer, practice);
  }

  /** Heads the same beside several numbers of visits. */
  public static String fewerThan(OneVisitFewer fewer) {
    return "Fewer than "
        + RuleWords.visits(fewer.visits() + 1)
        + ", the practice as it is, would need";
  }

  /** What one visit fewer would need, a line each; one line where nothing that was tried would. */
  public static List<String> needs(OneVisitFewer fewer, Practice practice) {
    return fewer.remedies().isEmpty()
        ? List.of("no single change that was tried would do")
        : fewer.remedies().stream().map(one -> need(one.change(), practice)).toList();
  }

  static String sentence(OneVisitFewer fewer, Practice practice) {
    return fewer.remedies().isEmpty()
        ? "One visit fewer: no single change that was tried would do."
        : FEWER + " " + String.join("; or ", needs(fewer, practice)) + ".";
  }

  /** What is needed: a noun. */
  static String need(Change change, Practice practice) {
    if (change instanceof Change.Visits visits) {
      return "only to be asked for: "
          + Words.count(visits.number(), "visit")
          + " can hold the work, at a higher cost by the practice's weights";
    }
    if (change instanceof Change.LongerVisits longer) {
      // No leave to keep a patient longer than the patient can bear.
      List<LengthLimit> others =
          longer.limits().stream()
              .filter(limit -> limit.whose() != LengthLimit.Whose.PATIENT)
              .toList();
      String visits =
          "visits of up to "
              + longer.minutes()
              + " minutes instead of "
              + longer.insteadOfMinutes();
      return others.size() == longer.limits().size()
          ? visits + limits(others)
          : "a patient who could sit through "
              + visits
              + others.stream()
                  .filter(limit -> limit.whose() == LengthLimit.Whose.PRACTICE)
                  .map(limit -> ", and a practice that allows more than " + limit.minutes().asInt())
                  .collect(Collectors.joining())
              + limits(
                  others.stream()
                      .filter(
                          limit ->
                              limit.whose() != LengthLimit.Whose.PRACTICE
                                  || limit.minutes().assumed())
                      .toList());
    }
    if (change instanceof Change.LargerTray tray) {
      int more = tray.inserts() - tray.insteadOf().asInt();
      return (more == 1 ? "one more insert" : more + " more inserts")
          + " on the tray, "
          + tray.inserts()
          + " instead of "
          + tray.insteadOf().asInt()
          + assumed(tray.insteadOf());
    }
    if (change instanceof Change.LessCertainty less) {
      return "visits that end inside their booked time in "
          + Words.percent(less.certainty())
          + " of cases instead of "
          + Words.percent(less.insteadOf().value())
          + assumed(less.insteadOf());
    }
    if (change instanceof Change.AllowAgent agent) {
      return Words.agent(agent.agent(), practice) + " among the anaesthetics";
    }
    if (change instanceof Change.FrontAcrossMidline) {
      return "the front teeth across the midline to be numbed in the same visit, by infiltrations";
    }
    return "an area that is begun to be finished in a later visit";
  }

  private static String limits(List<LengthLimit> limits) {
    List<String> words = limits.stream().map(ReasonWords::limit).filter(w -> !w.isEmpty()).toList();
    return words.isEmpty() ? "" : " (" + String.join("; ", words) + ")";
  }

  private static String limit(LengthLimit limit) {
    String assumed = limit.minutes().assumed() ? "an assumption of the practice file" : "";
    return switch (limit.whose()) {
      case PRACTICE -> assumed.isEmpty() ? "the practice's longest visit" : assumed;
      case PATIENT -> "as long as the patient can sit";
      case ALERT ->
          "for a clinician to judge: "
              + Objects.requireNonNull(limit.alert()).word().replace('-', ' ')
              + " caps a visit at "
              + limit.minutes().asInt()
              + " minutes"
              + (assumed.isEmpty() ? "" : ", " + assumed);
    };
  }

  private static String assumed(Figure figure) {
    return figure.assumed() ? " (an assumption of the practice file)" : "";
  }
}

package quadrille.cli.render;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.Comparison;
import quadrille.plan.scenario.CourseFigures;
import quadrille.plan.scenario.Hint;
import quadrille.plan.scenario.Obstacle;
import quadrille.plan.scenario.RuleOfThumb;
import quadrille.plan.scenario.WhatIf;

/** The choices of a comparison in words. */
public final class ChoiceWords {

  private ChoiceWords() {}

  /** What is asked at the head of every visit of the courses compared, each question once. */
  public static List<StopQuestion> asked(Comparison comparison) {
    return Stream.concat(
            comparison.groups().stream().flatMap(group -> group.choices().stream()),
            comparison.rulesOfThumb().stream())
        .flatMap(choice -> Stream.ofNullable(choice.course()))
        .flatMap(course -> MindWords.asked(course.visits()).stream())
        .distinct()
        .toList();
  }

  /** What a choice is, such as {@code 3 visits} or {@code half a mouth a visit}. */
  public static String name(Choice choice) {
    RuleOfThumb rule = choice.rule();
    if (rule == null) {
      return RuleWords.visits(choice.visits());
    }
    return switch (rule) {
      case QUADRANT -> "a quadrant a visit";
      case HALF -> "half a mouth a visit";
      case FIRST_FIT -> "quadrants, first fit";
    };
  }

  /** The figures of a choice, a cell each; none of a choice that has no course. */
  public static List<String> cells(@Nullable CourseFigures figures) {
    return figures == null
        ? List.of()
        : List.of(
            Long.toString(Math.round(figures.chairSeconds() / 60.0)),
            Integer.toString(figures.bookedMinutes()),
            Integer.toString(figures.longestMinutes()),
            Integer.toString(figures.tipChanges()),
            Integer.toString(figures.injections()),
            Integer.toString(figures.cartridges()),
            Words.percent(figures.largestDoseShare()),
            Words.risk(figures.overrunRisk()),
            Integer.toString(figures.spanDays()),
            Long.toString(Math.round(figures.costSeconds() / 60.0)));
  }

  /** Conditions, such as {@code visits of at most 60 min; gross pass of the whole mouth first}. */
  public static String conditions(WhatIf whatIf) {
    List<String> words = new ArrayList<>();
    if (whatIf.longestMinutes() != null) {
      words.add("visits of at most " + whatIf.longestMinutes() + " min");
    }
    whatIf.withoutInserts().forEach(insert -> words.add("without " + insert));
    if (whatIf.agentFirst() != null) {
      words.add(whatIf.agentFirst() + " first");
    }
    Double certainty = whatIf.certainty();
    if (certainty != null) {
      BigDecimal percent = new BigDecimal(100 * certainty).setScale(1, RoundingMode.HALF_UP);
      words.add(percent.stripTrailingZeros().toPlainString() + " of 100 visits end in time");
    }
    if (whatIf.grossFirst()) {
      words.add("gross pass of the whole mouth first");
    }
    if (whatIf.oneDay()) {
      words.add("all within 24 h");
    }
    if (whatIf.trayHolds() != null) {
      words.add("a tray of " + whatIf.trayHolds() + " inserts");
    }
    if (whatIf.frontApart()) {
      words.add("no front across the midline");
    }
    if (whatIf.needleAverse()) {
      words.add("a needle-averse patient");
    }
    return words.isEmpty() ? "as it is" : String.join("; ", words);
  }

  /** The heading of a table. */
  public static String heading(WhatIf whatIf) {
    return whatIf.equals(WhatIf.AS_IT_IS)
        ? "The practice as it is"
        : "What if: " + conditions(whatIf);
  }

  /** Why a choice is none, one line each: names of rules, or sentences with their full stop. */
  public static List<String> obstacles(Choice choice, Chart chart, Practice practice) {
    return choice.obstacles().stream().map(obstacle -> of(obstacle, chart, practice)).toList();
  }

  /** The same as one line. */
  static String obstacleLine(Choice choice, Chart chart, Practice practice) {
    StringBuilder words = new StringBuilder();
    boolean sentence = false;
    for (Obstacle obstacle : choice.obstacles()) {
      words
          .append(words.isEmpty() ? "" : sentence ? " " : "; ")
          .append(of(obstacle, chart, practice));
      sentence = obstacle instanceof Obstacle.BreaksRule;
    }
    return words.toString();
  }

  private static String of(Obstacle obstacle, Chart chart, Practice practice) {
    if (obstacle instanceof Obstacle.NoCourse none) {
      return ClashWords.of(none.clash(), practice);
    }
    if (obstacle instanceof Obstacle.AsWritten written) {
      return written.words();
    }
    if (obstacle instanceof Obstacle.NoInsert none) {
      return ClashWords.unworkable(none.work(), chart);
    }
    if (obstacle instanceof Obstacle.DayForbidden forbidden) {
      return RuleWords.rule(HardRule.ALERTS)
          + ": "
          + forbidden.alert().word()
          + " forbids all visits within 24 h";
    }
    if (obstacle instanceof Obstacle.DaysAskedFor asked) {
      return RuleWords.rule(HardRule.ALERTS)
          + ": "
          + asked.alert().word()
          + " asks for "
          + asked.days()
          + " days between visits";
    }
    if (obstacle instanceof Obstacle.CutShort) {
      return "the search was cut short";
    }
    Obstacle.BreaksRule broken = (Obstacle.BreaksRule) obstacle;
    return broken.first().words()
        + (broken.more() == 0 ? "" : " And " + broken.more() + " more like it.");
  }

  /** What to mind with a choice. */
  static List<String> hints(Choice choice) {
    return choice.hints().stream().map(ChoiceWords::of).toList();
  }

  /** Each hint of some choices once, with the names of those that it is about. */
  public static Map<String, List<String>> hints(List<Choice> choices) {
    Map<String, List<String>> names = new LinkedHashMap<>();
    for (Choice choice : choices) {
      for (String hint : hints(choice)) {
        names.computeIfAbsent(hint, h -> new ArrayList<>()).add(name(choice));
      }
    }
    return names;
  }

  private static String of(Hint hint) {
    if (hint instanceof Hint.EverythingInOneVisit one) {
      return one.alert().word()
          + ": the practice's rule is not to treat everything within 24 h, which one visit"
          + " does; the clinician decides";
    }
    Hint.MuchWithin24Hours much = (Hint.MuchWithin24Hours) hint;
    return String.format(
        Locale.ROOT,
        "acute load: the fine pass of %d quadrants, %.0f min of it, within 24 h; full-mouth"
            + " treatment raised CRP three times and IL-6 twice as much as quadrant-wise at"
            + " 24 h, no difference by day 7 (Graziani et al. 2015, J Clin Periodontol 42:843;"
            + " that %d quadrants are much: assumption)",
        much.quadrants(),
        much.fineSeconds() / 60.0,
        much.muchFrom());
  }

  /** What holds for all rows of a comparison. */
  public static List<String> notes(Comparison comparison, Practice practice) {
    List<String> notes = new ArrayList<>();
    if (comparison.cutShort()) {
      notes.add(
          "the search was cut short: with more time rows may cost less, rows without a course may"
              + " have one, and another run may find other courses");
    }
    comparison
        .waiting()
        .forEach(
            reason ->
                notes.add(
                    "some work waits and is in no row: "
                        + PlanFileWords.of(practice).reason(reason)));
    if (comparison.nothingDue()) {
      notes.add("nothing is due, so there is nothing to compare");
    }
    return notes;
  }
}

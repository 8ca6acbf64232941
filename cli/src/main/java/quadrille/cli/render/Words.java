package quadrille.cli.render;

import java.util.List;
import java.util.Locale;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.plan.work.NumbingNeeds;
import quadrille.plan.work.StepAspect;

/** How numbers, times and teeth are said. */
public final class Words {

  private Words() {}

  /** Whole minutes, such as {@code 52 min}. */
  public static String minutes(double seconds) {
    return Math.round(seconds / 60) + "\u00a0min";
  }

  /** Minutes with one decimal. */
  static String decimalMinutes(long seconds) {
    return String.format(Locale.ROOT, "%.1f", seconds / 60.0);
  }

  /** A share as a whole percentage; what is more than none never reads as none. */
  public static String percent(double share) {
    long percent = Math.round(share * 100);
    return percent == 0 && share > 0 ? "<1\u00a0%" : percent + "\u00a0%";
  }

  /**
   * The chance to run over as a whole percentage. It is never none, though a saved plan, which
   * keeps four decimals of it, may say so.
   */
  public static String risk(double chance) {
    return percent(Math.max(chance, Double.MIN_VALUE));
  }

  /** A number with at most so many decimals and no idle zeros. */
  public static String number(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
  }

  /** Which injection, and where: at a tooth, on a side, or at the midline where it numbs both. */
  public static String injection(InjectionRef ref, Numbering numbering, Practice practice) {
    Injection kind = practice.injections().get(ref.injection());
    return kind != null && kind.bothSides() && ref.tooth() == null
        ? ref.injection() + ", midline"
        : ref.name(numbering);
  }

  /** An agent as people call it; its name where the practice does not know it. */
  public static String agent(String name, Practice practice) {
    Agent agent = practice.agents().get(name);
    return agent == null ? name : agent.words();
  }

  /** A power level, such as {@code low power}, or that none is used. */
  static String power(Power power) {
    return power == Power.NONE ? "by\u00a0hand" : power.word() + "\u00a0power";
  }

  /** A number of things, such as {@code 1 visit} or {@code 3 visits}. */
  public static String count(long number, String thing) {
    return number + "\u00a0" + thing + (number == 1 ? "" : "s");
  }

  /** A range, such as {@code 7 to 14}, or one number where both ends are the same. */
  public static String range(int from, int to) {
    return from == to ? Integer.toString(from) : from + " to " + to;
  }

  /** When a course is looked at again, such as {@code 6 to 12 weeks after the last visit}. */
  public static String reevaluation(Course course) {
    return range(course.reevaluateFromWeeks(), course.reevaluateToWeeks())
        + " weeks after the last visit";
  }

  /** What comes after the last visit, without a full stop. */
  public static String afterwards(Course course) {
    if (course.chartsFirst()) {
      return "the visits make the mouth chartable, and the rest is planned again from the new"
          + " chart";
    }
    return course.leadsToReevaluation()
        ? "re-evaluation " + reevaluation(course)
        : "work is held back: plan again first, then re-evaluate";
  }

  /** The word for a value of an enum, such as {@code not-done}. */
  static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The first letter as a capital. */
  public static String capital(String words) {
    return words.isEmpty()
        ? words
        : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  /** A clause as a sentence; what a file says may bring its own full stop. */
  public static String sentence(String clause) {
    return capital(clause) + (clause.endsWith(".") ? "" : ".");
  }

  /** Teeth by the chart's own numbering, with spaces between. */
  public static String teeth(Iterable<Tooth> teeth, Numbering numbering) {
    StringBuilder names = new StringBuilder();
    for (Tooth tooth : teeth) {
      names.append(names.isEmpty() ? "" : " ").append(numbering.name(tooth));
    }
    return names.toString();
  }

  /** An area's name, by the chart's own numbering. */
  public static String area(AreaRef area, Chart chart) {
    return area.name(chart.numbering());
  }

  /**
   * That a step is done numb, such as {@code numb}; with the teeth that ask for it, where others of
   * the step do not: {@code numb for 13}. Nothing where it needs no numbness.
   *
   * @param word how numb is written
   */
  public static String numb(Entry.Debride step, Chart chart, Practice practice, String word) {
    if (!step.needsNumb()) {
      return "";
    }
    NumbingNeeds needs = new NumbingNeeds(practice, chart.patient());
    List<Tooth> numb =
        step.teeth().stream()
            .flatMap(tooth -> chart.tooth(tooth).stream())
            .filter(tooth -> !needs.of(tooth, step.pass(), step.aspect()).isEmpty())
            .map(ToothChart::tooth)
            .toList();
    return numb.isEmpty() || numb.size() == step.teeth().size()
        ? word
        : word + " for\u00a0" + teeth(numb, chart.numbering()).replace(' ', '\u00a0');
  }

  /** An area and an aspect of it. */
  public static String place(AreaRef area, StepAspect aspect, Numbering numbering) {
    return area.name(numbering) + " " + aspect.word();
  }

  /**
   * What a visit's injections numb, such as {@code right side, and the front across the midline}.
   */
  public static String numb(Visit visit) {
    return numb(visit, visit.numbSide().word());
  }

  /**
   * The same with a word of one's own for the side, where there is one.
   *
   * @param side such as {@code RIGHT}
   */
  static String numb(Visit visit, String side) {
    boolean both = visit.numbSide() != NumbSide.NONE && visit.numbSide() != NumbSide.BOTH;
    return place(visit, side) + (both && !visit.numbFront().isEmpty() ? "," : "");
  }

  /** The same where nothing follows. */
  public static String numbPlace(Visit visit) {
    return place(visit, visit.numbSide().word());
  }

  private static String place(Visit visit, String side) {
    boolean front = !visit.numbFront().isEmpty();
    return switch (visit.numbSide()) {
      case RIGHT, LEFT -> side + " side" + (front ? ", and the front across the midline" : "");
      case BOTH -> "both sides";
      case NONE -> front ? "the front across the midline" : "the front palate";
    };
  }
}

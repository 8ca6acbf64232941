package quadrille.plan.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.OneVisitFewer;

/**
 * Courses of one mouth side by side.
 *
 * @param groups one for each set of conditions, the practice as it is first
 * @param rulesOfThumb what the rules of thumb come to under the practice as it is, in the order of
 *     {@link RuleOfThumb}
 * @param cutShort whether a search was asked to end before it was done, so that with more time rows
 *     may cost less, and rows without a course have one
 * @param waiting why some work is held back and in no row; each reason once
 * @param oneVisitFewer what one visit fewer than the fewest here would need, under the practice as
 *     it is; null where that was not sought
 */
public record Comparison(
    List<Group> groups,
    List<Choice> rulesOfThumb,
    boolean cutShort,
    List<HeldBack.Reason> waiting,
    @Nullable OneVisitFewer oneVisitFewer) {

  public Comparison {
    groups = List.copyOf(groups);
    rulesOfThumb = List.copyOf(rulesOfThumb);
    waiting = List.copyOf(waiting);
  }

  /** A comparison in which what one visit fewer would need was not sought. */
  public Comparison(
      List<Group> groups,
      List<Choice> rulesOfThumb,
      boolean cutShort,
      List<HeldBack.Reason> waiting) {
    this(groups, rulesOfThumb, cutShort, waiting, null);
  }

  /**
   * The same mouth at several numbers of visits.
   *
   * @param whatIf the conditions
   * @param choices by number of visits, ascending
   */
  public record Group(WhatIf whatIf, List<Choice> choices) {
    public Group {
      choices = List.copyOf(choices);
    }
  }

  /** Whether anything but a rule of thumb is a course that keeps every hard rule. */
  public boolean feasible() {
    return groups.stream().flatMap(group -> group.choices().stream()).anyMatch(Choice::feasible);
  }

  /** Whether the mouth has no work that is due. */
  public boolean nothingDue() {
    return groups.stream().allMatch(group -> group.choices().isEmpty());
  }

  /** Marks what nothing beats. */
  Comparison marked() {
    List<CourseFigures> all = new ArrayList<>();
    Stream.concat(groups.stream().flatMap(group -> group.choices().stream()), rulesOfThumb.stream())
        .map(Choice::figures)
        .flatMap(Stream::ofNullable)
        .forEach(all::add);
    return new Comparison(
        groups.stream()
            .map(
                group ->
                    new Group(
                        group.whatIf(),
                        group.choices().stream().map(choice -> choice.marked(all)).toList()))
            .toList(),
        rulesOfThumb.stream().map(choice -> choice.marked(all)).toList(),
        cutShort,
        waiting,
        oneVisitFewer);
  }
}

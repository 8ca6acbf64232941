package quadrille.plan.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import quadrille.plan.course.HeldBack;

/**
 * Courses of one mouth side by side.
 *
 * @param groups one for each set of conditions, the practice as it is first
 * @param rulesOfThumb what the rules of thumb come to under the practice as it is, in the order of
 *     {@link RuleOfThumb}
 * @param notes what holds for all rows
 * @param waiting why some work waits and is in no row, each reason once
 */
public record Comparison(
    List<Group> groups,
    List<Choice> rulesOfThumb,
    List<String> notes,
    List<HeldBack.Reason> waiting) {

  public Comparison {
    groups = List.copyOf(groups);
    rulesOfThumb = List.copyOf(rulesOfThumb);
    notes = List.copyOf(notes);
    waiting = List.copyOf(waiting);
  }

  /**
   * The same mouth at several numbers of visits.
   *
   * @param whatIf the conditions
   * @param choices by number of visits, ascending
   * @param sentences what each extra visit buys
   */
  public record Group(WhatIf whatIf, List<Choice> choices, List<String> sentences) {
    public Group {
      choices = List.copyOf(choices);
      sentences = List.copyOf(sentences);
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
                        group.choices().stream().map(choice -> choice.marked(all)).toList(),
                        group.sentences()))
            .toList(),
        rulesOfThumb.stream().map(choice -> choice.marked(all)).toList(),
        notes,
        waiting);
  }
}

package quadrille.facts.practice;

import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;

/**
 * What stands around the work of a visit, beside set-up and close: the history taken, the blood
 * pressure, what is agreed and explained.
 *
 * @param parts what is done of it, in the order in which it is done
 */
public record Frame(Map<Task, Part> parts) {

  /** A frame of set-up and close alone. */
  public static final Frame NONE = new Frame(Map.of());

  public Frame {
    Map<Task, Part> inOrder = new EnumMap<>(Task.class);
    inOrder.putAll(parts);
    parts = Collections.unmodifiableMap(inOrder);
  }

  /** What may be done, in the order in which it is done. */
  public enum Task {
    /** The medical history brought up to date. */
    HISTORY("history"),
    BLOOD_PRESSURE("blood-pressure"),
    /** The treatment agreed to. */
    CONSENT("consent"),
    /** The mouth rinsed before aerosol is made. */
    RINSE("rinse"),
    /** The six-point chart. */
    CHARTING("charting"),
    /** What to do at home. */
    INSTRUCTION("instruct"),
    /** A look at the bleeding before the patient leaves. */
    LAST_LOOK("last-look");

    private final String word;

    Task(String word) {
      this.word = word;
    }

    /** As written in practice files and plan files. */
    public String word() {
      return word;
    }
  }

  /** The visits of a course in which a part is done. */
  public enum Visits {
    EVERY("every"),
    FIRST("first"),
    LAST("last"),
    NONE("none");

    private final String word;

    Visits(String word) {
      this.word = word;
    }

    /** As written in practice files. */
    public String word() {
      return word;
    }

    boolean hold(boolean first, boolean last) {
      return this == EVERY || (this == FIRST && first) || (this == LAST && last);
    }
  }

  /**
   * One part.
   *
   * @param minutes how long it takes; 0 where it takes no time of its own
   * @param visits in which visits everybody has it
   * @param alerts patients with one of these have it in every visit
   * @param agent what a rinse holds; null where that does not matter
   */
  public record Part(Figure minutes, Visits visits, Set<Alert> alerts, @Nullable String agent) {
    public Part {
      Set<Alert> some = EnumSet.noneOf(Alert.class);
      some.addAll(alerts);
      alerts = Collections.unmodifiableSet(some);
    }

    /** Whole seconds that it takes. */
    public int seconds() {
      return (int) Math.round(60 * minutes.value());
    }

    /** Whether it comes after the work: what is explained, or charted in the last visit only. */
    boolean afterWork(Task task) {
      return task == Task.INSTRUCTION
          || task == Task.LAST_LOOK
          || (task == Task.CHARTING && visits == Visits.LAST);
    }
  }

  /**
   * What is done before the work of a visit.
   *
   * @param alerts the patient's, and those that they include
   * @param without rinses that must not be used
   * @param first whether it is the first visit of its course
   * @param last whether it is the last
   */
  public List<Task> before(Set<Alert> alerts, Set<String> without, boolean first, boolean last) {
    return parts(alerts, without, first, last, false);
  }

  /** What is done after the work of a visit. */
  public List<Task> after(Set<Alert> alerts, Set<String> without, boolean first, boolean last) {
    return parts(alerts, without, first, last, true);
  }

  /** Minutes of what everybody has in every visit. */
  double minutesOfEveryVisit() {
    return parts.values().stream()
        .filter(part -> part.visits() == Visits.EVERY)
        .mapToDouble(part -> part.minutes().value())
        .sum();
  }

  /** Whether a part comes after the work of a visit. */
  public boolean afterWork(Task task) {
    Part part = parts.get(task);
    return part != null && part.afterWork(task);
  }

  /** Whole seconds of a part; 0 where the practice does not have it. */
  public int seconds(Task task) {
    Part part = parts.get(task);
    return part == null ? 0 : part.seconds();
  }

  private List<Task> parts(
      Set<Alert> alerts, Set<String> without, boolean first, boolean last, boolean afterWork) {
    return parts.entrySet().stream()
        .filter(one -> one.getValue().afterWork(one.getKey()) == afterWork)
        .filter(one -> one.getValue().seconds() > 0)
        .filter(one -> one.getValue().agent() == null || !without.contains(one.getValue().agent()))
        .filter(
            one ->
                one.getValue().visits().hold(first, last)
                    || one.getValue().alerts().stream().anyMatch(alerts::contains))
        .map(Map.Entry::getKey)
        .toList();
  }
}

package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/** The letter and the pattern by which an insert is told in every picture of a course. */
public final class InsertMarks {

  private static final int PATTERNS = 10;
  private static final int LETTERS = 26;

  private final Map<String, Integer> numbers = new TreeMap<>();

  private InsertMarks() {}

  /**
   * A mark.
   *
   * @param insert the insert's name
   * @param letter A, B, C …; from the 27th on A2, B2 …
   * @param pattern the pattern's number, 1 to 10; the eleventh insert starts over, with a letter of
   *     its own
   */
  public record Mark(String insert, String letter, int pattern) {}

  /** Marks in the order in which the course first uses its inserts. */
  public static InsertMarks of(Course course) {
    InsertMarks marks = new InsertMarks();
    for (Visit visit : course.visits()) {
      for (Entry.Debride step : visit.steps()) {
        marks.number(step.insert());
      }
      // A tray written by hand may hold more than the steps use.
      visit.tray().forEach(marks::number);
    }
    return marks;
  }

  /** The mark of an insert that the course uses. */
  public Mark of(String insert) {
    Integer number = numbers.get(insert);
    if (number == null) {
      throw new IllegalArgumentException("The insert (" + insert + ") is not in this course.");
    }
    int round = number / LETTERS;
    String letter = (char) ('A' + number % LETTERS) + (round == 0 ? "" : String.valueOf(round + 1));
    return new Mark(insert, letter, number % PATTERNS + 1);
  }

  /** All marks, by letter. */
  public List<Mark> all() {
    List<String> names = new ArrayList<>(numbers.keySet());
    names.sort((one, other) -> Integer.compare(at(one), at(other)));
    return names.stream().map(this::of).toList();
  }

  private int at(String insert) {
    return numbers.getOrDefault(insert, 0);
  }

  private void number(String insert) {
    numbers.putIfAbsent(insert, numbers.size());
  }
}

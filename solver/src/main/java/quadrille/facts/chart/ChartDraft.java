package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;

/**
 * What can be said of a chart that is being written as tooth lines. It is no chart: only the teeth
 * whose lines are whole are in it, and nothing may be planned from it.
 *
 * @param chart the chart, once it is valid as a whole; null until then
 * @param faults what is wrong or not filled in yet
 * @param numbering as far as it is said
 * @param teeth whose lines are whole and without a fault, in the order of their lines; a tooth that
 *     is there twice is in it once
 */
public record ChartDraft(
    @Nullable Chart chart,
    List<Fault> faults,
    Optional<Numbering> numbering,
    List<ToothChart> teeth) {

  public ChartDraft {
    faults = List.copyOf(faults);
    teeth = List.copyOf(teeth);
  }

  /**
   * Reads tooth lines as far as they have come.
   *
   * @param source the document's name, for faults
   */
  public static ChartDraft of(String source, String text) {
    Optional<Numbering> numbering = numbering(text);
    try {
      Chart chart = ChartReader.lines(source, text);
      return new ChartDraft(chart, List.of(), numbering, chart.teeth());
    } catch (InvalidDocumentException notYet) {
      return new ChartDraft(
          null, notYet.faults(), numbering, numbering.map(by -> teeth(text, by)).orElse(List.of()));
    }
  }

  /** Whether something is not filled in yet, rather than wrong. */
  public static boolean open(Fault fault) {
    return ToothLines.OPEN_FAULTS.contains(fault.found());
  }

  private static Optional<Numbering> numbering(String text) {
    return text.lines()
        .map(line -> line.strip().split("\\s+"))
        .filter(words -> words.length > 1 && words[0].equals("numbering"))
        .map(words -> words[1])
        .flatMap(
            word -> List.of(Numbering.values()).stream().filter(one -> one.word().equals(word)))
        .findFirst();
  }

  private static List<ToothChart> teeth(String text, Numbering numbering) {
    List<ToothChart> teeth = new ArrayList<>();
    for (String line : text.lines().toList()) {
      if (!line.isBlank() && Character.isDigit(line.strip().charAt(0))) {
        alone(line, numbering)
            .filter(one -> teeth.stream().noneMatch(other -> other.tooth().equals(one.tooth())))
            .ifPresent(teeth::add);
      }
    }
    return teeth;
  }

  /** One line, read beside another tooth, for a mouth without any is none. */
  private static Optional<ToothChart> alone(String line, Numbering numbering) {
    Tooth first = Tooth.ofIso(11);
    boolean taken = line.strip().split("[\\s|]+", 2)[0].equals(numbering.name(first));
    Tooth other = taken ? Tooth.ofIso(21) : first;
    String beside = numbering.name(other) + " none | 0 0 0 | 0 0 0";
    try {
      return ChartReader.lines(
              "draft", "case x\nnumbering " + numbering.word() + "\n" + line + "\n" + beside)
          .teeth()
          .stream()
          .filter(tooth -> !tooth.tooth().equals(other))
          .findFirst();
    } catch (InvalidDocumentException notYet) {
      return Optional.empty();
    }
  }
}

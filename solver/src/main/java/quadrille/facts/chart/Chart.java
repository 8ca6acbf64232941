package quadrille.facts.chart;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;

/**
 * A whole mouth as charted.
 *
 * @param caseName the practice's own reference; no name of a person is needed
 * @param charted the day of charting, where given
 * @param numbering how the document named its teeth, and so how people should be answered
 * @param teeth what was listed, sorted by tooth; a position not listed counts as missing
 */
@Withers
public record Chart(
    String caseName,
    @Nullable LocalDate charted,
    Numbering numbering,
    Patient patient,
    List<ToothChart> teeth)
    implements ChartBuilder.With {

  public Chart {
    teeth = teeth.stream().sorted(java.util.Comparator.comparing(ToothChart::tooth)).toList();
  }

  public Optional<ToothChart> tooth(Tooth tooth) {
    return teeth.stream().filter(charted -> charted.tooth().equals(tooth)).findFirst();
  }

  /** Natural teeth and implants, sorted. */
  public List<ToothChart> worked() {
    return teeth.stream().filter(ToothChart::worked).toList();
  }

  /** Whether both teeth are worked on and are charted with a calculus bridge. */
  public boolean bridged(Tooth one, Tooth other) {
    return List.of(one, other).stream()
        .allMatch(
            tooth ->
                tooth(tooth)
                    .filter(charted -> charted.worked() && charted.has(Feature.CALCULUS_BRIDGE))
                    .isPresent());
  }

  /** Positions that the document did not list, which are taken as missing. */
  public List<Tooth> unlisted() {
    return Tooth.values().stream().filter(tooth -> tooth(tooth).isEmpty()).toList();
  }
}

package quadrille.facts.chart;

import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What was charted at one position. A natural tooth or an implant always has both readings; a
 * missing tooth has none; a tooth planned for extraction may have them.
 *
 * @param furcation 0 to 3
 * @param mobility 0 to 3
 */
public record ToothChart(
    Tooth tooth,
    ToothStatus status,
    Deposit deposit,
    int furcation,
    int mobility,
    Set<Feature> features,
    @Nullable AspectReading facial,
    @Nullable AspectReading lingual) {

  public ToothChart {
    features =
        features.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(features));
    if (worked(status) && (facial == null || lingual == null)) {
      throw new IllegalArgumentException("Tooth " + tooth + " needs both aspects.");
    }
  }

  private static boolean worked(ToothStatus status) {
    return status == ToothStatus.NATURAL || status == ToothStatus.IMPLANT;
  }

  /** Whether the tooth is there to be worked on: natural or implant. */
  public boolean worked() {
    return worked(status);
  }

  public boolean implant() {
    return status == ToothStatus.IMPLANT;
  }

  public boolean has(Feature feature) {
    return features.contains(feature);
  }

  /** The sites of one aspect, distal to mesial; empty where nothing was charted. */
  public List<Site> sites(Aspect aspect) {
    AspectReading reading = aspect == Aspect.FACIAL ? facial : lingual;
    return reading == null ? List.of() : reading.sites();
  }

  /** All charted sites, facial before lingual. */
  public List<Site> sites() {
    return Stream.of(Aspect.values()).flatMap(aspect -> sites(aspect).stream()).toList();
  }
}

package quadrille.facts.practice;

import java.util.Set;
import quadrille.document.Withers;
import quadrille.facts.chart.Deposit;

/**
 * What must be numb, and how injections are given.
 *
 * @param fineDepthMm the fine pass of an aspect with a site at or above this depth needs pulp and
 *     soft tissue
 * @param sensitiveDepthMm a sensitive tooth is numbed by injection where its aspect has a site at
 *     or above this depth; where it has none, pocket gel serves, or the patient is asked at the
 *     chair
 * @param grossFrom a gross pass counts as below the margin from this deposit grade on, where {@code
 *     grossDepthMm} holds
 * @param grossDepthMm the depth from which heavy deposit is taken to reach below the margin
 * @param grossNeeds what a gross pass below the margin needs
 * @param mlPerMinute rate of injection
 * @param handlingSeconds fixed time of each injection beside its volume
 * @param lowerIncisorsBothSides whether the pulp of a lower incisor asks for its labial and its
 *     lingual gingiva too, so that no labial infiltration alone counts for it
 * @param numbFirst whether nothing is touched before it is numb, whoever the patient is
 */
@Withers
public record Numbing(
    Figure fineDepthMm,
    Figure sensitiveDepthMm,
    Deposit grossFrom,
    Figure grossDepthMm,
    Set<Need> grossNeeds,
    Figure mlPerMinute,
    Figure handlingSeconds,
    boolean lowerIncisorsBothSides,
    boolean numbFirst)
    implements NumbingBuilder.With {

  /** A kind of numbness. */
  public enum Need {
    PULP("pulp"),
    TISSUE("tissue");

    private final String word;

    Need(String word) {
      this.word = word;
    }

    /** As written in files. */
    public String word() {
      return word;
    }
  }
}

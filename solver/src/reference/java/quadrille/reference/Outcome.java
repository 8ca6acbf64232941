package quadrille.reference;

import java.util.List;

/**
 * What CP-SAT made of a problem.
 *
 * @param status in CP-SAT's words
 * @param best seconds; -1 where no course was found
 * @param bound no course costs less, in whole seconds; -1 where there is none
 * @param effort CP-SAT's deterministic seconds
 * @param sets how many sets of areas one visit may hold, as far as is known without their orders
 * @param visits for each visit its steps in order, by their places in the problem
 */
public record Outcome(
    String status,
    long best,
    long bound,
    double wallSeconds,
    double effort,
    int sets,
    List<List<Integer>> visits) {}

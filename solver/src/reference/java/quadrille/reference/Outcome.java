package quadrille.reference;

import java.util.List;

/**
 * What CP-SAT made of a problem.
 *
 * @param status in CP-SAT's words
 * @param best seconds; -1 where no course was found
 * @param bound no course costs less, in whole seconds
 * @param visits for each visit its steps in order, by their places in the problem
 * @param agents by visit, the agent's name, or none
 */
public record Outcome(
    String status,
    long best,
    long bound,
    double wallSeconds,
    List<List<Integer>> visits,
    List<String> agents) {}

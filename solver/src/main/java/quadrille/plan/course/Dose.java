package quadrille.plan.course;

/**
 * What one visit gives of one agent, against the most that the patient may have.
 *
 * @param agent the agent's name, or the gel's
 * @param mg given; for gel, cartridges
 * @param maxMg most allowed; for gel, cartridges
 * @param share mg / maxMg; the shares of a visit add up to at most 1
 */
public record Dose(String agent, double mg, double maxMg, double share) {}

package quadrille.plan.course;

/**
 * Work that the course leaves out, and why: it waits for a fact, such as the patient's weight.
 *
 * @param teeth the teeth, as ISO 3950 codes with spaces between
 * @param reason what is missing
 */
public record HeldBack(String area, String pass, String aspect, String teeth, String reason) {}

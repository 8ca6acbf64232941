/**
 * The second reading of a diary: what is booked twice, outside hours, by someone who may not, out
 * of order, or without a sterile set. Shares no reckoning with free times or with the search.
 */
@org.jspecify.annotations.NullMarked
package quadrille.diary.audit;

/**
 * Numbers taken from documents, each with its unit and its source. Start at {@link
 * org.steadyshaft.published.CosineWindow}. A number of our own never stands here: it is a setting beside the code that
 * uses it. This room uses no other.
 */
package org.steadyshaft.published;

//! The one integration-test binary: one module a topic.

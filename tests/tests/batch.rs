//! The batch planner against judges that share no code with it: the rules of a plan, the fewest bowls by exhaustion, and the fewest bowls by integer programming.

#[path = "batch/courses.rs"]
mod courses;
#[path = "batch/exhaust.rs"]
mod exhaust;
#[path = "batch/judge.rs"]
mod judge;
#[path = "batch/known.rs"]
mod known;
#[path = "batch/laws.rs"]
mod laws;
#[path = "batch/programme.rs"]
mod programme;
#[path = "batch/rivals.rs"]
mod rivals;

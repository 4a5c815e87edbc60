"""Floor 10, a room: pictures of sewing: steps, frames, chains, routes."""

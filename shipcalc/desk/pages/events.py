"""What happens, for pages that are open: `/events`, a stream that a browser reads by itself."""

from typing import Annotated

from fastapi import APIRouter, Header, Query
from fastapi.responses import StreamingResponse

from shipcalc.desk.live import Live


def paths(live: Live) -> APIRouter:
    """Return the path of the stream."""
    router = APIRouter(include_in_schema=False)

    @router.get("/events")
    async def events(
        after: Annotated[int | None, Query(ge=0)] = None,
        last_event_id: Annotated[str, Header(max_length=20)] = "",
    ) -> StreamingResponse:
        """Tell what happens from now on, and what happened after the event that the browser has seen last."""
        seen = int(last_event_id) if last_event_id.isdecimal() else after
        return StreamingResponse(live.stream(seen), media_type="text/event-stream", headers={"X-Accel-Buffering": "no"})

    return router
